using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Shimwright.Bench;
using Shimwright.Storage;
using Shimwright.Web.Requests;

namespace Shimwright.Web.Hosting;

/// <summary>Keeps the forecasts fresh while the server runs and nobody waits for a page, so that the list of what is due only has to read them. Of several servers on one database one does it for all.</summary>
internal sealed partial class ForecastKeeper(IBench bench, RequestTraffic traffic, TimeProvider time, ILogger<ForecastKeeper> log) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(15);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await using IAsyncDisposable? turn = bench is BenchDatabase database ? await database.TakeForecastsAsync(stoppingToken) : null;
                if (bench is not BenchDatabase || turn is not null)
                {
                    await bench.Due.KeepFreshAsync(traffic, stoppingToken);
                }
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                // A database that is busy or away for a moment: pages that need a forecast work it out themselves and say what is wrong.
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

    [LoggerMessage(LogLevel.Warning, "Forecasts were not brought up to date; they will be tried again.")]
    private static partial void LogLater(ILogger logger, Exception exception);
}
