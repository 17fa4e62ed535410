using System.Net;
using System.Net.Sockets;
using System.Text;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Running;

public class ReadyCommandTests
{
    [Theory]
    [InlineData("200 OK", "ready", ExitCode.Done, "ready", "")]
    [InlineData("503 Service Unavailable", "not ready: the database does not answer", ExitCode.BadInput, "", "shimwright: not ready: the database does not answer")]
    [InlineData("404 Not Found", "nothing here", ExitCode.BadInput, "", "shimwright: port {0} of this machine answers, but it is not a bench; name the bench's port with --port")]
    public async Task Run_WithAnAnswer_SaysWhatItMeans(string status, string words, int exit, string output, string error)
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        int port = ((IPEndPoint)listener.LocalEndpoint).Port;
        Task<string> asked = AnswerAsync(listener, status, words);
        ProgramRun run = await Task.Run(() => ProgramRun.Of("ready", "--port", $"{port}"), TestContext.Current.CancellationToken);
        Assert.StartsWith("GET /readyz ", await asked, StringComparison.Ordinal);
        Assert.Equal((exit, output, string.Format(System.Globalization.CultureInfo.InvariantCulture, error, port)), (run.Exit, run.Output.Trim(), run.Error.Trim()));
    }

    [Fact]
    public void Run_NothingOnThePort_SaysWhatToDo()
    {
        int port;
        using (var listener = new TcpListener(IPAddress.Loopback, 0))
        {
            listener.Start();
            port = ((IPEndPoint)listener.LocalEndpoint).Port;
        }

        ProgramRun run = ProgramRun.Of("ready", "--port", $"{port}");
        Assert.Equal((ExitCode.BadInput, ""), (run.Exit, run.Output));
        Assert.Equal($"shimwright: no answer on port {port} of this machine; start the bench with 'shimwright serve', or name its port with --port", Assert.Single(run.ErrorLines));
    }

    private static async Task<string> AnswerAsync(TcpListener listener, string status, string words)
    {
        using TcpClient client = await listener.AcceptTcpClientAsync(TestContext.Current.CancellationToken);
        NetworkStream stream = client.GetStream();
        byte[] asked = new byte[4096];
        int read = await stream.ReadAsync(asked, TestContext.Current.CancellationToken);
        await stream.WriteAsync(
            Encoding.ASCII.GetBytes($"HTTP/1.1 {status}\r\nContent-Type: text/plain\r\nContent-Length: {words.Length}\r\nConnection: close\r\n\r\n{words}"),
            TestContext.Current.CancellationToken);
        return Encoding.ASCII.GetString(asked, 0, read);
    }
}
