using System.CommandLine;
using Shimwright.Web.Running;

namespace Shimwright.Cli.Commands;

/// <summary>The options of serve that say what it runs under: a container, a collector of metrics and traces.</summary>
internal sealed class RunningOptions
{
    /// <summary>Base images for .NET set this; no other machine does.</summary>
    public const string InContainerVariable = "DOTNET_RUNNING_IN_CONTAINER";

    private readonly Option<bool> _container = new("--container")
    {
        Description = "Listen on every address of the container this runs in, so that its port can be published. Every device is let in by a code. Publish the port on 127.0.0.1 only, or put a proxy before it.",
    };

    private readonly Option<string?> _telemetry = new("--telemetry")
    {
        Description = "Send metrics and traces to this OpenTelemetry collector (OTLP over HTTP), for example http://127.0.0.1:4318. Default: send nothing.",
        HelpName = "URL",
    };

    private RunningOptions()
    {
        _container.Validators.Add(result =>
        {
            // One word too many on a bare machine would open the bench to the network.
            if (result.GetValueOrDefault<bool>() && Environment.GetEnvironmentVariable(InContainerVariable) != "true")
            {
                result.AddError("--container: this is not a container; leave the option out.");
            }
        });
        _telemetry.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && Collector(text) is null)
            {
                result.AddError($"--telemetry: found \"{text}\", allowed is http://HOST:PORT or https://HOST:PORT.");
            }
        });
    }

    public static RunningOptions AddTo(Command command)
    {
        var options = new RunningOptions();
        command.Add(options._container);
        command.Add(options._telemetry);
        return options;
    }

    public ServerRunning Of(ParseResult parsed) =>
        new(parsed.GetValue(_container), parsed.GetValue(_telemetry) is { } text ? Collector(text) : null);

    private static Uri? Collector(string text) =>
        Uri.TryCreate(text, UriKind.Absolute, out Uri? url) && url is { Scheme: "http" or "https", Query: "", Fragment: "", UserInfo: "" } ? url : null;
}
