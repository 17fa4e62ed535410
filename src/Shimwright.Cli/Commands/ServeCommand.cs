using System.CommandLine;
using System.Globalization;
using System.Runtime.InteropServices;
using Shimwright.Cli.Running;
using Shimwright.Storage;
using Shimwright.Web.Hosting;
using Shimwright.Web.Running;

namespace Shimwright.Cli.Commands;

/// <summary>The command serve: the bench in a browser, on this machine only.</summary>
internal static class ServeCommand
{
    public const int UsualPort = 7340;

    public static Command Create(Terminal terminal)
    {
        Option<string?> database = DatabaseOption.Create();
        Option<int> port = PortOption();
        var command = new Command("serve", "Open the bench in a browser, on this machine only, until Ctrl-C.\nExample: shimwright serve --db shed.db") { database, port };
        var running = RunningOptions.AddTo(command);
        command.SetAction((parsed, cancel) => RunAsync(terminal, parsed.GetValue(database), parsed.GetValue(port), cancel, running: running.Of(parsed)));
        return command;
    }

    public static Option<int> PortOption()
    {
        var port = new Option<int>("--port")
        {
            Description = $"The port on 127.0.0.1, {UsualPort} unless given; 0 takes any that is free.",
            DefaultValueFactory = _ => UsualPort,
        };
        port.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int p) || p > 65535))
            {
                result.AddError($"--port: found \"{text}\", allowed is 0 to 65535.");
            }
        });
        return port;
    }

    /// <summary>Serves a database until it is told to stop; <paramref name="opened"/> runs once pages are answered.</summary>
    public static Task<int> RunAsync(
        Terminal terminal, string? address, int port, CancellationToken cancel, Func<BenchDatabase, string, Task>? opened = null, ServerRunning? running = null) =>
        DatabaseOption.UseAsync(terminal, address, database => RunAsync(terminal, database, port, opened, running, cancel));

    private static async Task<int> RunAsync(
        Terminal terminal, BenchDatabase database, int port, Func<BenchDatabase, string, Task>? opened, ServerRunning? running, CancellationToken cancel)
    {
        if (await database.PrepareAsync(cancel) is { } copy)
        {
            terminal.Output.WriteLine($"The bench was brought up to this program; as it was, it lies in {copy}");
        }

        if (opened is null && await database.IsEmptyAsync(cancel))
        {
            terminal.Output.WriteLine(
                "This is a new, empty bench. If you expected yours, close it and name its file with --db, or put a copy in its place with 'shimwright restore'.");
        }

        await using IAsyncDisposable held = await database.HoldAsync(cancel);
        await using WebApplication app = BenchServer.Build(new(database, port, KeyFolder(database), TimeProvider.System, Running: running));
        try
        {
            await app.StartAsync(cancel);
        }
        catch (IOException taken) when (taken.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException or System.Net.Sockets.SocketException)
        {
            terminal.Error.WriteLine($"shimwright: port {port.ToString(CultureInfo.InvariantCulture)} on 127.0.0.1 is taken; name another with --port, or 0 for any that is free");
            return ExitCode.BadInput;
        }

        // A window that is closed closes the bench as Ctrl-C does; under nohup nothing comes.
        using var hangup = PosixSignalRegistration.Create(PosixSignal.SIGHUP, signal =>
        {
            signal.Cancel = true;
            app.Lifetime.StopApplication();
        });
        string url = app.Urls.First().Replace("//0.0.0.0:", "//localhost:", StringComparison.Ordinal);
        terminal.Output.WriteLine($"The bench is open at {url} (kept in {database.Description}). Ctrl-C closes it; what was tapped is kept.");
        if (opened is not null)
        {
            await opened(database, url);
        }

        terminal.Output.Flush();
        await app.WaitForShutdownAsync(cancel);
        return ExitCode.Done;
    }

    private static string KeyFolder(BenchDatabase database) => database.File is { } file ? file + ".keys" : Path.Combine(BenchDatabase.DataFolder, "keys");
}
