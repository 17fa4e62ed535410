using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Shimwright.Web.Tests.Running;

/// <summary>A collector of metrics and traces that keeps what it is sent. Names and values stand in the bytes as they are.</summary>
internal sealed class Collector : IAsyncDisposable
{
    private readonly HttpListener _listener = new();
    private readonly Task _work;

    public Collector()
    {
        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        Address = new Uri($"http://127.0.0.1:{((IPEndPoint)free.LocalEndpoint).Port}");
        free.Stop();
        _listener.Prefixes.Add(Address.AbsoluteUri);
        _listener.Start();
        _work = WorkAsync();
    }

    public Uri Address { get; }

    /// <summary>What came, by the path it was sent to.</summary>
    public ConcurrentQueue<(string Path, string Text, string? Secret)> Came { get; } = [];

    /// <summary>All that came to a path.</summary>
    public string At(string path) => string.Concat(Came.Where(c => c.Path == path).Select(c => c.Text));

    public async ValueTask DisposeAsync()
    {
        _listener.Close();
        await _work;
    }

    private async Task WorkAsync()
    {
        while (true)
        {
            try
            {
                HttpListenerContext context = await _listener.GetContextAsync();
                using var reader = new StreamReader(context.Request.InputStream, Encoding.Latin1);
                Came.Enqueue((context.Request.Url!.AbsolutePath, await reader.ReadToEndAsync(), context.Request.Headers["secret"]));
                context.Response.ContentType = "application/x-protobuf";
                context.Response.Close();
            }
            catch (Exception closed) when (closed is HttpListenerException or ObjectDisposedException)
            {
                return;
            }
        }
    }
}
