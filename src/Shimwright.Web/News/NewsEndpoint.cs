using System.Globalization;
using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Hosting;
using Shimwright.Bench;
using Shimwright.Pages.Visits;
using Shimwright.Storage;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.News;

/// <summary>Tells an open page of a job that something was added, as server-sent events (HTML standard, 9.2): the number of the last entry.</summary>
internal static class NewsEndpoint
{
    /// <summary>How many pages may be open at once on one server.</summary>
    public const int Most = 500;

    /// <summary>After so long without news a sign of life is sent, and it is looked whether the device is still let in.</summary>
    public static readonly TimeSpan Silence = TimeSpan.FromSeconds(20);

    private static int _open;

    public static void MapNews(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/jobs/{id:guid}/news", Watch).ForAccess(AccessRules.Look).ExcludeFromDescription();

    private static Results<ServerSentEventsResult<string>, StatusCodeHttpResult> Watch(
        Guid id, HttpContext context, IBench bench, TimeProvider time, IHostApplicationLifetime life, CancellationToken gone)
    {
        if (bench is not BenchDatabase database)
        {
            return TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }

        if (Interlocked.Increment(ref _open) > Most)
        {
            Interlocked.Decrement(ref _open);
            return TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }

        return TypedResults.ServerSentEvents(FollowAsync(id, database, Visitor.DeviceOf(context.User), time, life.ApplicationStopping, gone));
    }

    private static async IAsyncEnumerable<SseItem<string>> FollowAsync(
        Guid id, BenchDatabase database, Guid? device, TimeProvider time, CancellationToken stopping, [EnumeratorCancellation] CancellationToken gone)
    {
        using var either = CancellationTokenSource.CreateLinkedTokenSource(stopping, gone);
        IAsyncEnumerator<int> news = database.News.WatchAsync(id, either.Token).GetAsyncEnumerator(either.Token);
        // What was added before one began to watch is told too.
        Task<bool> next = news.MoveNextAsync().AsTask();
        long looked = time.GetTimestamp();
        try
        {
            if (await database.LastFactAsync(id, gone) is not { } now)
            {
                yield break;
            }

            yield return Item(now);
            while (true)
            {
                Task silence = Task.Delay(Silence, time, either.Token);
                bool isSilent = await Task.WhenAny(next, silence) == silence;
                if (isSilent || time.GetElapsedTime(looked) >= Silence)
                {
                    looked = time.GetTimestamp();
                    if (either.IsCancellationRequested || (device is { } d && !await database.Devices.IsInAsync(d, gone)))
                    {
                        yield break;
                    }
                }

                if (isSilent)
                {
                    yield return new("", "still");
                    continue;
                }

                if (!next.IsCompletedSuccessfully || !await next || ((news.Current == Storage.Jobs.JobNews.Unknown ? await database.LastFactAsync(id, gone) : news.Current) is not { } last))
                {
                    yield break;
                }

                yield return Item(last);
                next = news.MoveNextAsync().AsTask();
            }
        }
        finally
        {
            await either.CancelAsync();
            await ((Task)next).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            await news.DisposeAsync();
            Interlocked.Decrement(ref _open);
        }
    }

    private static SseItem<string> Item(int last) => new(last.ToString(CultureInfo.InvariantCulture), "added");
}
