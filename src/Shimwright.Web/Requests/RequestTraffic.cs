using Microsoft.AspNetCore.Http;
using Shimwright.Bench.Due;

namespace Shimwright.Web.Requests;

/// <summary>
/// Counts the requests that wait for an answer. Forecasts are worked out in the background on the processors that these leave free.
/// </summary>
internal sealed class RequestTraffic(TimeProvider time) : IPace
{
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(2);

    /// <summary>However busy the server is, the work goes on after this.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromMilliseconds(50);

    /// <summary>Processors that are left to whoever waits: one for the page, one for what belongs to it, as the browser on this machine.</summary>
    private const int PerPage = 2;

    private int _waiting;
    private int _working;

    /// <inheritdoc/>
    public int AtOnce { get; init; } = Environment.ProcessorCount;

    /// <summary>Counts a request until its answer begins: news of a job are an answer that goes on for hours.</summary>
    /// <param name="context">The request.</param>
    /// <param name="next">What answers it.</param>
    /// <returns>When it was answered.</returns>
    public async Task CountAsync(HttpContext context, RequestDelegate next)
    {
        int mine = 1;
        Interlocked.Increment(ref _waiting);
        context.Response.OnStarting(() =>
        {
            Leave();
            return Task.CompletedTask;
        });
        try
        {
            await next(context);
        }
        finally
        {
            Leave();
        }

        void Leave() => Interlocked.Add(ref _waiting, -Interlocked.Exchange(ref mine, 0));
    }

    /// <inheritdoc/>
    public async ValueTask<T> DoAsync<T>(Func<T> work, CancellationToken cancel)
    {
        long since = time.GetTimestamp();
        while (Interlocked.Increment(ref _working) + (PerPage * Volatile.Read(ref _waiting)) > AtOnce && time.GetElapsedTime(since) < Longest)
        {
            Interlocked.Decrement(ref _working);
            await Task.Delay(Look, time, cancel);
        }

        try
        {
            return work();
        }
        finally
        {
            Interlocked.Decrement(ref _working);
        }
    }
}
