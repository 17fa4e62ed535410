using System.CommandLine;
using System.Globalization;
using System.Net;
using Shimwright.Cli.Running;

namespace Shimwright.Cli.Commands;

/// <summary>The command ready: asks a bench on this machine whether it can work, where there is no other program that could ask it.</summary>
internal static class ReadyCommand
{
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(10);

    public static Command Create(Terminal terminal)
    {
        Option<int> port = ServeCommand.PortOption("The port of the bench.", least: 1);
        var command = new Command("ready", "Ask the bench that is open on this machine whether it is ready. Exit code: 0 ready, 1 not ready.\nExample: shimwright ready") { port };
        command.SetAction((parsed, cancel) => RunAsync(terminal, parsed.GetValue(port), cancel));
        return command;
    }

    private static async Task<int> RunAsync(Terminal terminal, int port, CancellationToken cancel)
    {
        // Straight to this machine, whatever proxy the environment names.
        using var handler = new SocketsHttpHandler { UseProxy = false };
        // This machine asks itself whether it is ready, no more: whose certificate it shows does not matter.
        handler.SslOptions.RemoteCertificateValidationCallback = (_, certificate, _, _) => certificate is not null;
        using var client = new HttpClient(handler) { Timeout = Longest };
        string place = $"port {port.ToString(CultureInfo.InvariantCulture)} of this machine";
        try
        {
            using HttpResponseMessage answer = await AskAsync(client, port, cancel);
            string words = (await answer.Content.ReadAsStringAsync(cancel)).ReplaceLineEndings(" ");
            if (answer.StatusCode == HttpStatusCode.OK)
            {
                terminal.Output.WriteLine(words);
                return ExitCode.Done;
            }

            terminal.Error.WriteLine(answer.StatusCode == HttpStatusCode.ServiceUnavailable
                ? $"shimwright: {words}"
                : $"shimwright: {place} answers, but it is not a bench; name the bench's port with --port");
        }
        catch (HttpRequestException)
        {
            terminal.Error.WriteLine($"shimwright: no answer on {place}; start the bench with 'shimwright serve', or name its port with --port");
        }
        catch (TaskCanceledException) when (!cancel.IsCancellationRequested)
        {
            terminal.Error.WriteLine($"shimwright: no answer on {place} within 10 s; stop the bench and start it again");
        }

        return ExitCode.BadInput;
    }

    /// <summary>Over plain HTTP, or where the bench is open to the workshop's network over HTTPS.</summary>
    private static async Task<HttpResponseMessage> AskAsync(HttpClient client, int port, CancellationToken cancel)
    {
        try
        {
            return await client.GetAsync(Address("http"), cancel);
        }
        catch (HttpRequestException e) when (e.HttpRequestError is HttpRequestError.ResponseEnded or HttpRequestError.InvalidResponse || e.InnerException is IOException)
        {
            return await client.GetAsync(Address("https"), cancel);
        }

        Uri Address(string scheme) => new UriBuilder(scheme, IPAddress.Loopback.ToString(), port, "/readyz").Uri;
    }
}
