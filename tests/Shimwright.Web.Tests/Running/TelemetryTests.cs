using Microsoft.AspNetCore.Builder;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Shimwright.Storage;
using Shimwright.Web.Hosting;
using Shimwright.Web.Running;

namespace Shimwright.Web.Tests.Running;

/// <summary>What a collector is sent, and that there is nothing to send where none was named.</summary>
public sealed class TelemetryTests : IDisposable
{
    private static readonly Dictionary<string, string> Variables = new(StringComparer.Ordinal)
    {
        ["OTEL_SERVICE_NAME"] = "another-name",
        ["OTEL_RESOURCE_ATTRIBUTES"] = "deployment=elsewhere",
        ["OTEL_EXPORTER_OTLP_HEADERS"] = "secret=of-the-machine",
        ["OTEL_SDK_DISABLED"] = "true",
        ["OTEL_TRACES_SAMPLER"] = "always_off",
    };

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-telemetry-").FullName;

    [Fact]
    public async Task Serve_WithACollector_SendsTracesAndMetricsThatNameNobody()
    {
        await using var collector = new Collector();
        string id = Guid.NewGuid().ToString();
        await using (WebApplication app = await StartAsync(collector.Address))
        {
            using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
            client.DefaultRequestHeaders.UserAgent.ParseAdd("browser-of-someone/1.0");
            client.DefaultRequestHeaders.Add("traceparent", "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01");
            client.DefaultRequestHeaders.Add("tracestate", "shop=state-of-someone");
            foreach (string path in new[] { "/engines?q=name-of-an-engine", $"/engines/{id}", "/readyz", "/healthz" })
            {
                using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
            }

            await app.StopAsync(TestContext.Current.CancellationToken);
        }

        string traces = collector.At("/v1/traces"), metrics = collector.At("/v1/metrics");
        Assert.Contains("shimwright", traces, StringComparison.Ordinal);
        Assert.Contains("http.route", traces, StringComparison.Ordinal);
        Assert.Contains("engines", traces, StringComparison.Ordinal);
        Assert.Contains("http.server.request.duration", metrics, StringComparison.Ordinal);
        Assert.All(new[] { "name-of-an-engine", "someone", "url.path", "url.query", "user_agent", "client.address", "readyz", "healthz", id }, words =>
            Assert.DoesNotContain(words, traces, StringComparison.OrdinalIgnoreCase));
        Assert.All(new[] { "name-of-an-engine", "someone", id }, words => Assert.DoesNotContain(words, metrics, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task Serve_WithoutACollector_HasNothingOfIt()
    {
        await using var collector = new Collector();
        await WithVariablesAsync(Variables.Append(new("OTEL_EXPORTER_OTLP_ENDPOINT", collector.Address.AbsoluteUri)), async () =>
        {
            await using WebApplication app = await StartAsync(null);
            Assert.DoesNotContain(app.Services.GetServices<IHostedService>(), s => s.GetType().FullName!.StartsWith("OpenTelemetry", StringComparison.Ordinal));
            Assert.Null(app.Services.GetService<OpenTelemetry.Trace.TracerProvider>());
            Assert.Null(app.Services.GetService<OpenTelemetry.Metrics.MeterProvider>());
            using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
            await client.GetStringAsync(new Uri("/engines", UriKind.Relative), TestContext.Current.CancellationToken);
            await app.StopAsync(TestContext.Current.CancellationToken);
        });
        Assert.Empty(collector.Came);
    }

    /// <summary>What the option says holds; the machine's variables add nothing to it and take nothing away.</summary>
    [Fact]
    public async Task Serve_WithACollectorAndVariables_GoesByTheOption()
    {
        await using var collector = new Collector();
        await using var other = new Collector();
        await WithVariablesAsync(Variables.Append(new("OTEL_EXPORTER_OTLP_ENDPOINT", other.Address.AbsoluteUri)), async () =>
        {
            await using WebApplication app = await StartAsync(collector.Address);
            using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
            await client.GetStringAsync(new Uri("/engines", UriKind.Relative), TestContext.Current.CancellationToken);
            await app.StopAsync(TestContext.Current.CancellationToken);
        });
        Assert.Empty(other.Came);
        Assert.Contains("http.route", collector.At("/v1/traces"), StringComparison.Ordinal);
        Assert.All(collector.Came, c => Assert.Null(c.Secret));
        Assert.All(collector.Came, c => Assert.DoesNotContain("another-name", c.Text, StringComparison.Ordinal));
        Assert.All(collector.Came, c => Assert.DoesNotContain("elsewhere", c.Text, StringComparison.Ordinal));
    }

    /// <summary>A collector that is not there costs the bench nothing.</summary>
    [Fact]
    public async Task Serve_CollectorThatIsAway_AnswersAndCloses()
    {
        Uri nowhere;
        await using (var gone = new Collector())
        {
            nowhere = gone.Address;
        }

        await using WebApplication app = await StartAsync(nowhere);
        using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
        Assert.Contains("</html>", await client.GetStringAsync(new Uri("/engines", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await app.StopAsync(TestContext.Current.CancellationToken);
        await app.DisposeAsync().AsTask().WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);
    }

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    private static async Task WithVariablesAsync(IEnumerable<KeyValuePair<string, string>> variables, Func<Task> work)
    {
        KeyValuePair<string, string>[] all = [.. variables];
        Array.ForEach(all, v => Environment.SetEnvironmentVariable(v.Key, v.Value));
        try
        {
            await work();
        }
        finally
        {
            Array.ForEach(all, v => Environment.SetEnvironmentVariable(v.Key, null));
        }
    }

    private async Task<WebApplication> StartAsync(Uri? collector)
    {
        var database = BenchDatabase.At(Path.Combine(_folder, "bench.db"), TimeProvider.System);
        await database.PrepareAsync(TestContext.Current.CancellationToken);
        WebApplication app = BenchServer.Build(new(database, 0, null, TimeProvider.System, Running: new ServerRunning(Telemetry: collector)));
        await app.StartAsync(TestContext.Current.CancellationToken);
        return app;
    }
}
