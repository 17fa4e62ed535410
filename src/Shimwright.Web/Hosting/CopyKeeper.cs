using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Shimwright.Bench;
using Shimwright.Bench.Copies;
using Shimwright.Storage;

namespace Shimwright.Web.Hosting;

/// <summary>Makes the daily copy of the bench while the server runs, and puts the write-ahead log into the file now and then.</summary>
internal sealed partial class CopyKeeper(IBench bench, TimeProvider time, ILogger<CopyKeeper> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromMinutes(1), Day = TimeSpan.FromDays(1), AfterFailure = TimeSpan.FromHours(1);
    private DateTimeOffset _notBefore;

    /// <summary>Makes a copy where the newest is a day old, or there is none of a bench that has something in it.</summary>
    /// <returns>Whether one was made.</returns>
    public async Task<bool> LookAsync(CancellationToken cancel)
    {
        DateTimeOffset now = time.GetUtcNow();
        CopiesState state = await bench.Copies.StateAsync(cancel);
        if (state.Folder is null || now < _notBefore || (state.Copies is [var newest, ..] && now.UtcDateTime - newest.At < Day)
            || (bench is BenchDatabase database && await database.IsEmptyAsync(cancel)))
        {
            return false;
        }

        MadeCopy made = await bench.Copies.MakeAsync(cancel);
        if (made.Failure is { } failure)
        {
            _notBefore = now + AfterFailure;
            LogNoCopy(log, failure);
        }

        return made.Copy is not null;
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await LookAsync(stoppingToken);
                if (bench is BenchDatabase database)
                {
                    await database.TidyAsync(stoppingToken);
                }
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                // A database that is busy or away for a moment: it is looked at again in a minute, and Settings shows the age of the newest copy.
                LogLater(log, e);
            }

            try
            {
                await Task.Delay(Pause, time, stoppingToken);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }

    [LoggerMessage(LogLevel.Warning, "The daily copy could not be made: {Failure}")]
    private static partial void LogNoCopy(ILogger logger, string failure);

    [LoggerMessage(LogLevel.Warning, "The bench was not looked after; it will be tried again.")]
    private static partial void LogLater(ILogger logger, Exception exception);
}
