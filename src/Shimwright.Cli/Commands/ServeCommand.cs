using System.CommandLine;
using System.Globalization;
using System.Runtime.InteropServices;
using Shimwright.Bench.Devices;
using Shimwright.Cli.Running;
using Shimwright.Storage;
using Shimwright.Web.Hosting;
using Shimwright.Web.Lan;
using Shimwright.Web.Running;

namespace Shimwright.Cli.Commands;

/// <summary>The command serve: the bench in a browser, on this machine only or for the devices of a workshop.</summary>
internal static class ServeCommand
{
    public const int UsualPort = 7340;

    public static Command Create(Terminal terminal)
    {
        Option<string?> database = DatabaseOption.Create();
        Option<int> port = PortOption($"The port, {UsualPort} unless given; 0 takes any that is free. With --lan the next port hands out the certificate.", UsualPort);
        var command = new Command("serve", "Open the bench in a browser until Ctrl-C: on this machine only, or with --lan on the workshop's network.\nExample: shimwright serve --db shed.db --lan") { database, port };
        LanOption lan = new();
        lan.AddTo(command);
        var running = RunningOptions.AddTo(command);
        command.SetAction((parsed, cancel) => DatabaseOption.UseAsync(terminal, parsed.GetValue(database), async bench =>
        {
            int at = parsed.GetValue(port);
            return await RunAsync(terminal, bench, at, lan.Of(parsed, bench, at), null, running.Of(parsed), cancel);
        }));
        return command;
    }

    /// <summary>The option that names a port; 0, where it is allowed, is any that is free.</summary>
    public static Option<int> PortOption(string about, int usual = UsualPort, int least = 0)
    {
        var port = new Option<int>("--port")
        {
            Description = about,
            DefaultValueFactory = _ => usual,
        };
        port.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int p) || p < least || p > 65535))
            {
                result.AddError(string.Create(CultureInfo.InvariantCulture, $"--port: found \"{text}\", allowed is {least} to 65535."));
            }
        });
        return port;
    }

    /// <summary>How long a start may say nothing.</summary>
    private static readonly TimeSpan Silent = TimeSpan.FromSeconds(3);

    /// <summary>Serves a database until it is told to stop; <paramref name="opened"/> runs once pages are answered.</summary>
    public static Task<int> RunAsync(Terminal terminal, string? address, int port, CancellationToken cancel, Func<BenchDatabase, string, Task>? opened = null) =>
        DatabaseOption.UseAsync(terminal, address, database => RunAsync(terminal, database, port, null, opened, null, cancel));

    private static async Task<int> RunAsync(
        Terminal terminal, BenchDatabase database, int port, LanOptions? lan, Func<BenchDatabase, string, Task>? opened, ServerRunning? running, CancellationToken cancel)
    {
        Task<string?> preparing = Task.Run(() => database.PrepareAsync(cancel), cancel);
        if (await Task.WhenAny(preparing, Task.Delay(Silent, TimeProvider.System, cancel)) != preparing && !cancel.IsCancellationRequested)
        {
            terminal.Error.WriteLine("Getting the bench ready. A large one can take a minute ...");
        }

        if (await preparing is { } copy)
        {
            terminal.Output.WriteLine($"The bench was brought up to this program; as it was, it lies in {copy}");
        }

        if (opened is null && await database.IsEmptyAsync(cancel))
        {
            terminal.Output.WriteLine(
                "This is a new, empty bench. If you expected yours, close it and name its file with --db, or put a copy in its place with 'shimwright restore'.");
        }

        await using IAsyncDisposable held = await database.HoldAsync(cancel);
        await using OpenShop? shop = lan is null ? null : await PrepareAsync(terminal, lan, cancel);
        if (lan is not null && shop is null)
        {
            return ExitCode.BadInput;
        }

        await using WebApplication app = BenchServer.Build(new(database, port, KeyFolder(database), TimeProvider.System, Shop: shop, Running: running));
        try
        {
            await app.StartAsync(cancel);
            if (shop is not null)
            {
                await shop.IntroduceAsync(new Uri(app.Urls.First()).Port, cancel);
            }
        }
        catch (IOException taken) when (taken.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException or System.Net.Sockets.SocketException)
        {
            terminal.Error.WriteLine(shop is null
                ? $"shimwright: port {port.ToString(CultureInfo.InvariantCulture)} on 127.0.0.1 is taken; name another with --port, or 0 for any that is free"
                : $"shimwright: port {port.ToString(CultureInfo.InvariantCulture)} or the next one is taken; name another with --port, or 0 for any that are free");
            return ExitCode.BadInput;
        }

        // A window that is closed closes the bench as Ctrl-C does; under nohup nothing comes.
        using var hangup = PosixSignalRegistration.Create(PosixSignal.SIGHUP, signal =>
        {
            signal.Cancel = true;
            app.Lifetime.StopApplication();
        });
        string url = app.Urls.First().Replace("//0.0.0.0:", "//localhost:", StringComparison.Ordinal);
        if (shop is null)
        {
            terminal.Output.WriteLine($"The bench is open at {url} (kept in {database.Description}). Ctrl-C closes it; what was tapped is kept.");
        }
        else
        {
            await SayWhereAsync(terminal, database, shop, new Uri(url).Port, cancel);
        }

        if (opened is not null)
        {
            await opened(database, url);
        }

        terminal.Output.Flush();
        await app.WaitForShutdownAsync(cancel);
        return ExitCode.Done;
    }

    private static async Task<OpenShop?> PrepareAsync(Terminal terminal, LanOptions lan, CancellationToken cancel)
    {
        try
        {
            return await OpenShop.PrepareAsync(lan, TimeProvider.System, cancel);
        }
        catch (LanException e)
        {
            terminal.Error.WriteLine($"shimwright: {e.Message}");
            return null;
        }
    }

    /// <summary>Says where phones find the bench, with a code for the first of them.</summary>
    private static async Task SayWhereAsync(Terminal terminal, BenchDatabase database, OpenShop shop, int port, CancellationToken cancel)
    {
        if (shop.Certificate is null)
        {
            terminal.Output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"The bench is open to the proxy only, at port {port} (kept in {database.Description}). Let the first device in with 'shimwright device code'."));
            return;
        }

        terminal.Output.WriteLine($"The bench is open to the workshop's network (kept in {database.Description}). Ctrl-C closes it; what was tapped is kept.");
        foreach (string host in shop.Names.Hosts.Prepend("localhost").Distinct())
        {
            terminal.Output.WriteLine("  " + LanNames.Link(host, port));
        }

        if (shop.Names.Addresses.Count == 0)
        {
            terminal.Output.WriteLine("This machine has no address on a private network yet. The bench is found there as soon as it has one.");
        }

        if (shop.Fingerprint is { } fingerprint && shop.IntroductionPort is { } introduction)
        {
            terminal.Output.WriteLine($"To stop the browser's warning, open {LanNames.Link(shop.Names.Best, introduction, scheme: "http")} on the phone and trust the certificate with this fingerprint:");
            terminal.Output.WriteLine("  " + fingerprint);
        }

        if ((await database.Devices.ListAsync(cancel)).Any(d => !d.IsProgram && d.IsIn(TimeProvider.System.GetUtcNow().UtcDateTime)))
        {
            terminal.Output.WriteLine("Let another device in at Settings, Devices, or with 'shimwright device code'.");
            return;
        }

        OneTimeCode code = await database.Devices.MakeCodeAsync(DeviceRole.Owner, cancel);
        terminal.Output.WriteLine($"Let the first phone in as owner: scan this within ten minutes, or open the bench on it and type {OneTimeCode.Shown(code.Text)}");
        foreach (string line in QrPicture.Lines(LanNames.Link(shop.Names.Best, port, $"/enter?code={code.Text}")))
        {
            terminal.Output.WriteLine(line);
        }
    }

    private static string KeyFolder(BenchDatabase database) => database.File is { } file ? file + ".keys" : Path.Combine(BenchDatabase.DataFolder, "keys");
}
