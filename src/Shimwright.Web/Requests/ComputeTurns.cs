using System.Globalization;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Http;
using Shimwright.Web.Api;

namespace Shimwright.Web.Requests;

/// <summary>
/// Pages and answers of the API are worked out a few at once; who comes then waits for a turn, and is sent away after a while. What was sent is
/// there in full before a turn is taken, so that a slow connection holds none.
/// </summary>
/// <param name="atOnce">How many are worked out at once, 1 or more.</param>
/// <param name="longest">How long one waits for a turn.</param>
/// <param name="time">The clock.</param>
public sealed class ComputeTurns(int atOnce, TimeSpan longest, TimeProvider time) : IDisposable
{
    /// <summary>What is kept in memory of a body, bytes; the rest lies in a file until the turn comes.</summary>
    private const int InMemory = 1024 * 1024;

    /// <summary>Tells a bench that has too much to do from one whose database is away.</summary>
    private const string BusyHeader = "Shimwright-Busy";

    private readonly SemaphoreSlim _turns = new(atOnce, atOnce);

    /// <summary>What a server has: a turn for each core, ten seconds of waiting.</summary>
    /// <param name="time">The clock.</param>
    /// <returns>The turns.</returns>
    public static ComputeTurns Usual(TimeProvider time) => new(Environment.ProcessorCount, TimeSpan.FromSeconds(10), time);

    /// <summary>Waits for a turn, and gives it back when the request is answered.</summary>
    internal async Task TakeAsync(HttpContext context, Func<Task> next)
    {
        if (!Computes(context))
        {
            await next();
            return;
        }

        await ReceiveAsync(context);
        if (!await TryBeginAsync(context.RequestAborted))
        {
            await SendAwayAsync(context);
            return;
        }

        try
        {
            await next();
        }
        finally
        {
            _turns.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _turns.Dispose();

    /// <summary>Whether a turn came before one was sent away.</summary>
    private async Task<bool> TryBeginAsync(CancellationToken gone)
    {
        using var timeout = new CancellationTokenSource(longest, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(timeout.Token, gone);
        try
        {
            await _turns.WaitAsync(either.Token);
            return true;
        }
        catch (OperationCanceledException) when (!gone.IsCancellationRequested)
        {
            return false;
        }
    }

    private static async Task ReceiveAsync(HttpContext context)
    {
        if (ApiErrors.IsApi(context.Request.Path) && context.Request.ContentLength is not 0 && !HttpMethods.IsGet(context.Request.Method))
        {
            context.Request.EnableBuffering(InMemory);
            await context.Request.Body.CopyToAsync(Stream.Null, context.RequestAborted);
            context.Request.Body.Position = 0;
        }
    }

    private async Task SendAwayAsync(HttpContext context)
    {
        int seconds = Math.Max(1, (int)Math.Ceiling(longest.TotalSeconds));
        context.Response.Headers.RetryAfter = seconds.ToString(CultureInfo.InvariantCulture);
        if (ApiErrors.IsApi(context.Request.Path))
        {
            await ApiErrors.WriteAsync(context, new("about:blank", "The bench is working out too much at once; nothing was saved.", StatusCodes.Status503ServiceUnavailable,
                [new("requests at once", $"{atOnce} are being worked out", $"wait {seconds} seconds, then send this again")]));
            return;
        }

        // Nothing was saved: a script may send the same once more.
        context.Response.Headers[BusyHeader] = "1";
        context.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
    }

    /// <summary>Pages and the API, but not the page that says what went wrong.</summary>
    private static bool Computes(HttpContext context) =>
        context.GetEndpoint() is { } endpoint && context.Request.Path != ErrorPages.Address
        && (ApiErrors.IsApi(context.Request.Path) || endpoint.Metadata.GetMetadata<ComponentTypeMetadata>() is not null);
}
