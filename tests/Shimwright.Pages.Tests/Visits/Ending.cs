using System.Text.RegularExpressions;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Tests.Visits;

/// <summary>How a visit ended, in the numbers of a server and without what only a server adds: the token against forgery, and a page beside an address to go to.</summary>
internal sealed partial record Ending(int Status, string? Next, string Html)
{
    /// <summary>What a server answered.</summary>
    public static Ending Of(HttpResponseMessage answer, string html)
    {
        string? next = answer.Headers.Location is { } location ? new Uri(answer.RequestMessage!.RequestUri!, location).AbsoluteUri : null;
        return new((int)answer.StatusCode, next, next is null ? Token().Replace(html, "") : "");
    }

    /// <summary>What a visit without a server came to.</summary>
    public static Ending Of(VisitAnswer answer) => new(StatusOf(answer.Outcome), answer.Next?.AbsoluteUri, answer.Html);

    /// <summary>Asserts that another ending is the same, and shows where it is not.</summary>
    public void IsThatOf(Ending other, string sent = "")
    {
        Assert.True(other.Html == Html, $"{sent}\nserved: {other.Html}\nvisited: {Html}");
        Assert.Equal(other, this);
    }

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
}
