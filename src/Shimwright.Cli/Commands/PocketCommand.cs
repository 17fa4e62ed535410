using System.CommandLine;
using System.Globalization;
using Shimwright.Cli.Running;
using Shimwright.Web.PhoneBench;

namespace Shimwright.Cli.Commands;

/// <summary>The command pocket: the bench that runs in a browser by itself, to try on this machine or to put on a host of files.</summary>
internal static class PocketCommand
{
    private const int UsualPort = 7344;

    public static Command Create(Terminal terminal)
    {
        Option<string?> folder = new("--out") { Description = "Write the files to a new folder instead, for any host that serves files over HTTPS.", HelpName = "FOLDER" };
        Option<int> port = ServeCommand.PortOption($"The port, {UsualPort} unless given. A browser keeps a bench for one address: another port is another bench.", UsualPort, least: 1);
        var command = new Command("pocket", "Open the bench that runs in a browser by itself, without a server or network, until Ctrl-C.\nExample: shimwright pocket --out shimwright-pocket") { folder, port };
        command.SetAction(async (parsed, cancel) =>
        {
            if (PocketFiles.Folder is null)
            {
                terminal.Error.WriteLine("shimwright: this build has no pocket; take a release, or start the program with ./shimwright, which builds it");
                return ExitCode.BadInput;
            }

            return parsed.GetValue(folder) is { } to ? Write(terminal, to) : await ServeAsync(terminal, parsed.GetValue(port), cancel);
        });
        return command;
    }

    private static int Write(Terminal terminal, string folder)
    {
        if (File.Exists(folder) || (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any()))
        {
            terminal.Error.WriteLine($"shimwright: --out: found something at \"{folder}\"; name a folder that is not there yet, or is empty");
            return ExitCode.BadInput;
        }

        try
        {
            (int count, long bytes) = PocketFiles.Write(folder);
            terminal.Output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Wrote {count} files, {bytes / 1e6:0.0} MB, to {folder}. Put the folder on a host that serves files over HTTPS, open its address on the phone, and add it to the home screen."));
            return ExitCode.Done;
        }
        catch (UnauthorizedAccessException denied)
        {
            terminal.Error.WriteLine($"shimwright: {denied.Message}");
            return ExitCode.BadInput;
        }
    }

    private static async Task<int> ServeAsync(Terminal terminal, int port, CancellationToken cancel)
    {
        await using WebApplication app = PocketServer.Build(port);
        try
        {
            await app.StartAsync(cancel);
        }
        catch (IOException taken) when (taken.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException or System.Net.Sockets.SocketException)
        {
            terminal.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"shimwright: port {port} on 127.0.0.1 is taken; close the program there, or name another port with --port. Another port is another bench."));
            return ExitCode.BadInput;
        }

        terminal.Output.WriteLine($"Open {app.Urls.First()}{PocketFiles.Address}/ in a browser on this machine. The bench is kept in the browser. It works without this program once it has been opened; Ctrl-C closes the program.");
        terminal.Output.Flush();
        await app.WaitForShutdownAsync(cancel);
        return ExitCode.Done;
    }
}
