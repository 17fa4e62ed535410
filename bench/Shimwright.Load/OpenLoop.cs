using System.Collections.Concurrent;
using System.Diagnostics;

namespace Shimwright.Load;

/// <summary>What came of one request.</summary>
/// <param name="Page">The page.</param>
/// <param name="Milliseconds">From the time at which it was due, whether or not it could be sent then, until the last byte.</param>
/// <param name="Status">The answer's status; 0 where there was none.</param>
/// <param name="Due">When it was due, on the stopwatch.</param>
internal sealed record Answered(string Page, double Milliseconds, int Status, long Due);

/// <summary>
/// Asks at fixed times whatever the answers do, as people who know nothing of each other would; a slow answer delays no
/// later request, and what waits in a queue counts as time.
/// </summary>
internal sealed class OpenLoop(HttpClient client, double perSecond)
{
    public async Task<IReadOnlyList<Answered>> RunAsync(IReadOnlyList<(string Page, Func<string> Address)> pages, TimeSpan length)
    {
        int count = (int)(length.TotalSeconds * perSecond);
        ConcurrentBag<Answered> answers = [];
        Task[] sent = new Task[count];
        var sender = new Thread(() =>
        {
            long start = Stopwatch.GetTimestamp();
            for (int i = 0; i < count; i++)
            {
                long due = start + (long)(i / perSecond * Stopwatch.Frequency);
                while (Stopwatch.GetTimestamp() < due)
                {
                    Thread.Sleep(TimeSpan.FromMicroseconds(100));
                }

                (string page, Func<string> address) = pages[i % pages.Count];
                string to = address();
                sent[i] = Task.Run(async () => answers.Add(await AskAsync(page, to, due)));
            }
        });
        sender.Start();
        await Task.Run(sender.Join);
        await Task.WhenAll(sent);
        return [.. answers];
    }

    private async Task<Answered> AskAsync(string page, string address, long due)
    {
        int status = 0;
        try
        {
            using HttpResponseMessage answer = await client.GetAsync(new Uri(address, UriKind.Relative));
            await answer.Content.CopyToAsync(Stream.Null);
            status = (int)answer.StatusCode;
        }
        catch (HttpRequestException)
        {
            // Counted below as an answer that failed.
        }

        return new(page, Stopwatch.GetElapsedTime(due).TotalMilliseconds, status, due);
    }
}
