using Microsoft.Extensions.Hosting;
using Shimwright.Bench;
using Shimwright.Storage;

namespace Shimwright.Web.News;

/// <summary>Hears what other servers add to jobs, while the server runs.</summary>
internal sealed class NewsKeeper(IBench bench) : BackgroundService
{
    protected override Task ExecuteAsync(CancellationToken stoppingToken) => bench is BenchDatabase database ? database.News.ListenAsync(stoppingToken) : Task.CompletedTask;
}
