using System.Collections.Concurrent;
using System.Net;
using System.Text.RegularExpressions;

namespace Shimwright.Browser.Safety;

/// <summary>A save that is sent: its action stays the same however often it is sent.</summary>
/// <param name="Value">The measured clearance, mm; no other save has it.</param>
/// <param name="Action">The action.</param>
internal sealed record Save(string Value, Guid Action);

/// <summary>A device that saves measured values through the form of the page, one after the other, and knows which were acknowledged.</summary>
internal sealed partial class FormWriter(string valve, IEnumerable<Save> saves)
{
    /// <summary>How often a save is sent again that the bench was too busy for; each time it has waited ten seconds for its turn.</summary>
    private const int MostBusy = 12;

    private readonly CookieContainer _cookies = new();
    private readonly Queue<Save> _left = new(saves);
    private readonly Dictionary<string, string> _form = [];
    private Save? _last;

    /// <summary>Saves that the server has said are kept.</summary>
    public ConcurrentQueue<Save> Acknowledged { get; } = [];

    /// <summary>Whether everything was acknowledged.</summary>
    public bool IsDone => _left.Count == 0;

    /// <summary>Opens the page once, as a person does who then taps on it for the rest of the evening.</summary>
    public async Task OpenAsync(Uri bench, string page)
    {
        using HttpClient client = ClientFor(bench);
        string html = await client.GetStringAsync(new Uri(page, UriKind.Relative));
        string form = html[html.IndexOf("value=\"value\"", StringComparison.Ordinal)..];
        _form["_handler"] = "value";
        _form["__RequestVerificationToken"] = Token().Match(form).Groups[1].Value;
        _form["Value.Valve"] = valve;
        // What the page had seen when it was opened: readings of others add to it and are not overwritten by it.
        _form["Value.Seen"] = Seen().Match(form).Groups[1].Value;
        _form["Value.U"] = "0.1";
    }

    /// <summary>Sends what is left until all is acknowledged or the server is gone.</summary>
    public async Task WriteAsync(Uri bench, string page, Action acknowledged)
    {
        using HttpClient client = ClientFor(bench);
        while (_left.TryPeek(out Save? next))
        {
            if (!await SendAsync(client, page, next))
            {
                return;
            }

            _last = _left.Dequeue();
            Acknowledged.Enqueue(_last);
            acknowledged();
        }
    }

    /// <summary>Sends the last acknowledged save once more, as a device does that is not sure of the answer.</summary>
    public async Task RepeatAsync(Uri bench, string page)
    {
        if (_last is { } last)
        {
            using HttpClient client = ClientFor(bench);
            Assert.True(await SendAsync(client, page, last));
        }
    }

    private async Task<bool> SendAsync(HttpClient client, string page, Save save)
    {
        try
        {
            for (int left = MostBusy; ; left--)
            {
                using var content = new FormUrlEncodedContent(_form.Append(new("Value.Value", save.Value)).Append(new("Value.Action", save.Action.ToString())));
                using HttpResponseMessage answer = await client.PostAsync(new Uri(page, UriKind.Relative), content);
                if (answer.StatusCode == HttpStatusCode.ServiceUnavailable && left > 0)
                {
                    // On a machine that has too much to do the bench says so, and the person sends it again.
                    continue;
                }

                // A saved form is answered by the way to the page; anything else would be a refusal.
                Assert.True(answer.StatusCode is HttpStatusCode.Found or HttpStatusCode.SeeOther, $"{save.Value}: {answer.StatusCode} {await answer.Content.ReadAsStringAsync()}");
                return true;
            }
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private HttpClient ClientFor(Uri bench) =>
        new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = _cookies }) { BaseAddress = bench };

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"Value.Seen\" value=\"([0-9]+)\"")]
    private static partial Regex Seen();
}
