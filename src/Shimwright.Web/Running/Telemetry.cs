using System.Reflection;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace Shimwright.Web.Running;

/// <summary>
/// Metrics and traces for a collector that the person who runs the server has named: how long which kind of page took, how it was answered,
/// how busy the program and its connections are. Nothing that was typed, and nothing that tells one engine, job or browser from another.
/// </summary>
internal static class Telemetry
{
    /// <summary>How requests, connections, the program itself and the connections to PostgreSQL fare.</summary>
    private static readonly string[] Meters =
    [
        "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", "System.Runtime", PostgresMeter,
    ];

    private const string PostgresMeter = "Npgsql";

    /// <summary>Sends to a collector from now on. A method of its own, so that none of the libraries is loaded where nothing is sent.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    public static void Add(IServiceCollection services, Uri collector) => services.AddOpenTelemetry()
        // Cleared first: the usual description takes names from the environment.
        .ConfigureResource(r => r.Clear().AddService("shimwright", serviceVersion: Version()).AddTelemetrySdk())
        .WithTracing(traces => traces
            .SetSampler(new AlwaysOnSampler())
            .AddAspNetCoreInstrumentation(asked =>
            {
                asked.Filter = context => !IsProbe(context);
                // Its spans carry links to what the asking side sent along, and a link cannot be taken off again.
                asked.EnableRazorComponentsSupport = false;
            })
            .AddProcessor(new PlainSpans())
            .AddOtlpExporter(to => SendTo(to, collector, "v1/traces")))
        .WithMetrics(metrics => metrics
            .AddMeter(Meters)
            // Npgsql names each pool by its connection text: host, database and user.
            .AddView(instrument => instrument.Meter.Name == PostgresMeter ? new MetricStreamConfiguration { TagKeys = ["db.client.connection.state"] } : null)
            .AddOtlpExporter(to => SendTo(to, collector, "v1/metrics")));

    /// <summary>Whoever watches over the server asks every few seconds; that is nobody's work.</summary>
    private static bool IsProbe(HttpContext context) => context.Request.Path.Value is "/healthz" or "/readyz";

    private static void SendTo(OtlpExporterOptions options, Uri collector, string signal)
    {
        options.Protocol = OtlpExportProtocol.HttpProtobuf;
        options.Endpoint = new Uri(collector.AbsoluteUri.TrimEnd('/') + "/" + signal);
    }

    private static string Version() => typeof(Telemetry).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;
}
