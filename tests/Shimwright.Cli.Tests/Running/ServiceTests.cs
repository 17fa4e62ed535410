using System.Net.Sockets;
using System.Text;
using Shimwright.Testing;

namespace Shimwright.Cli.Tests.Running;

/// <summary>The bench as a service of systemd, which tells who it is by the name of the process that started the program, and is told through a socket.</summary>
[Long]
public sealed class ServiceTests : IDisposable
{
    /// <summary>Starts a command, hands on what it is told, and ends as the command does.</summary>
    private const string Manager = "\"$@\" & child=$!; trap 'kill -TERM $child' TERM; wait $child; code=$?; if [ $code -gt 128 ]; then wait $child; code=$?; fi; exit $code";

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-service-").FullName;

    [Fact]
    public async Task Serve_UnderSystemd_TellsWhenItIsReadyAndWhenItStops()
    {
        using Socket told = Listen();
        await using ProgramProcess manager = StartUnder("systemd");
        Uri address = await manager.OpenAsync();
        Assert.Equal("READY=1", await HearAsync(told));
        using (var client = new HttpClient())
        {
            Assert.Equal("ready", await client.GetStringAsync(new Uri(address, "/readyz"), TestContext.Current.CancellationToken));
        }

        manager.Terminate();
        Assert.Equal("STOPPING=1", await HearAsync(told));
        Assert.Equal(0, await manager.EndAsync());
    }

    [Fact]
    public async Task Serve_FromATerminal_TellsNoService()
    {
        using Socket told = Listen();
        await using ProgramProcess shell = StartUnder("terminal");
        await shell.OpenAsync();
        shell.Terminate();
        Assert.Equal(0, await shell.EndAsync());
        Assert.Equal(0, told.Available);
        Assert.Single(shell.Said.TrimEnd().Split('\n'), line => line.StartsWith("The bench is open at ", StringComparison.Ordinal));
    }

    /// <summary>What is not asked for costs a start nothing: the system's list of what a process has laid into its memory names every library.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Serve_LoadsTheLibrariesOfTelemetry_OnlyWhereItIsAskedFor(bool asked)
    {
        await using var bench = new ProgramProcess(
            "dotnet", [ProgramProcess.Program, "serve", "--db", Path.Combine(_folder, "bench.db"), "--port", "0", .. asked ? new[] { "--telemetry", "http://127.0.0.1:9" } : []]);
        await bench.OpenAsync();
        string loaded = await File.ReadAllTextAsync($"/proc/{bench.Id}/maps", TestContext.Current.CancellationToken);
        Assert.Contains("Shimwright.Web.dll", loaded, StringComparison.Ordinal);
        Assert.Equal(asked, loaded.Contains("OpenTelemetry", StringComparison.Ordinal));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private Socket Listen()
    {
        var socket = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified);
        socket.Bind(new UnixDomainSocketEndPoint(Path.Combine(_folder, "notify")));
        return socket;
    }

    private static async Task<string> HearAsync(Socket socket)
    {
        byte[] buffer = new byte[256];
        int read = await socket.ReceiveAsync(buffer, TestContext.Current.CancellationToken).AsTask().WaitAsync(TimeSpan.FromMinutes(1), TestContext.Current.CancellationToken);
        return Encoding.UTF8.GetString(buffer, 0, read).Trim();
    }

    /// <summary>Starts the bench under a process of this name.</summary>
    private ProgramProcess StartUnder(string name)
    {
        string manager = Path.Combine(_folder, name);
        File.Copy("/bin/bash", manager);
        return new(
            manager,
            ["-c", Manager, name, "dotnet", ProgramProcess.Program, "serve", "--db", Path.Combine(_folder, "bench.db"), "--port", "0"],
            new Dictionary<string, string?> { ["NOTIFY_SOCKET"] = Path.Combine(_folder, "notify") });
    }
}
