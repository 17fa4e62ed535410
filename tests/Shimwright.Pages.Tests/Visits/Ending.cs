using System.Text.RegularExpressions;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Tests.Visits;

/// <summary>
/// How a visit ended, in the numbers of a server and without what only a server adds: the token against forgery, the script that
/// fetches only what changes, the fingerprints in its files' names, and a page beside an address to go to. The action of a form
/// is drawn anew each time it is shown.
/// </summary>
internal sealed partial record Ending(int Status, string? Next, string Html)
{
    /// <summary>What a server answered.</summary>
    public static Ending Of(HttpResponseMessage answer, string html)
    {
        string? next = answer.Headers.Location is { } location ? new Uri(answer.RequestMessage!.RequestUri!, location).AbsoluteUri : null;
        return new((int)answer.StatusCode, next, next is null ? Plain(Script().Replace(Token().Replace(html, ""), "")) : "");
    }

    /// <summary>What a visit without a server came to.</summary>
    public static Ending Of(VisitAnswer answer) => new(StatusOf(answer.Outcome), answer.Next?.AbsoluteUri, Plain(answer.Html));

    /// <summary>Asserts that another ending is the same but for the ids that a bench gives, and shows where it is not.</summary>
    public void IsThatOf(Ending other, string sent = "")
    {
        Ending expected = other.Numbered(), actual = Numbered();
        if (expected.Html != actual.Html)
        {
            int at = expected.Html.Zip(actual.Html).TakeWhile(c => c.First == c.Second).Count();
            Assert.Fail($"{sent}\nserved:  {Around(expected.Html, at)}\nvisited: {Around(actual.Html, at)}");
        }

        Assert.True(expected == actual, $"{sent}\nserved:  {expected.Status} {expected.Next}\nvisited: {actual.Status} {actual.Next}");
    }

    /// <summary>Each id by the place at which it comes first.</summary>
    private Ending Numbered()
    {
        Dictionary<string, string> seen = [];
        string Number(Match id) => seen.TryGetValue(id.Value, out string? number) ? number : seen[id.Value] = $"id{seen.Count + 1}";
        return new(Status, Next is null ? null : Id().Replace(Next, Number), Id().Replace(Html, Number));
    }

    private static string Around(string text, int at) => text[Math.Max(0, at - 200)..Math.Min(text.Length, at + 200)];

    private static string Plain(string html) => Action().Replace(Fingerprint().Replace(html, "."), "$1");

    private static int StatusOf(VisitOutcome outcome) => outcome switch
    {
        VisitOutcome.Shown => 200,
        VisitOutcome.SentOn => 302,
        VisitOutcome.NoSuchForm => 400,
        VisitOutcome.Missing => 404,
        VisitOutcome.Conflict => 409,
        _ => 422,
    };

    [GeneratedRegex("<input type=\"hidden\" name=\"__RequestVerificationToken\" value=\"[^\"]*\" />", RegexOptions.CultureInvariant)]
    private static partial Regex Token();

    [GeneratedRegex("<script src=\"_framework/blazor\\.web[^\"]*\"></script>", RegexOptions.CultureInvariant)]
    private static partial Regex Script();

    [GeneratedRegex("(?<=(?:href|src)=\"[a-z]+)\\.[a-z0-9]{10}\\.(?=(?:css|js|svg)\")", RegexOptions.CultureInvariant)]
    private static partial Regex Fingerprint();

    [GeneratedRegex("(name=\"\\w+\\.Action\" value=\")[0-9a-f-]{36}", RegexOptions.CultureInvariant)]
    private static partial Regex Action();

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}|[0-9a-f]{32}", RegexOptions.CultureInvariant)]
    private static partial Regex Id();
}
