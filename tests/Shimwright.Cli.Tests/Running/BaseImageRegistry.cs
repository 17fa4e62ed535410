using System.IO.Compression;
using System.Net;
using System.Net.Sockets;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;

namespace Shimwright.Cli.Tests.Running;

/// <summary>
/// A registry on this machine with one image, an empty one, so that an image can be laid on it where no other registry is reached.
/// As the OCI distribution specification has it: manifests by tag or digest, blobs by digest. The manifest is of the older kind, as that of the usual base image.
/// </summary>
internal sealed class BaseImageRegistry : IAsyncDisposable
{
    private const string ManifestType = "application/vnd.docker.distribution.manifest.v2+json";

    private readonly HttpListener _listener = new();
    private readonly Dictionary<string, (string Type, byte[] Content)> _served = new(StringComparer.Ordinal);
    private readonly int _port;
    private readonly Task _work;

    public BaseImageRegistry()
    {
        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        _port = ((IPEndPoint)free.LocalEndpoint).Port;
        free.Stop();
        AddImage();
        _listener.Prefixes.Add($"http://localhost:{_port}/");
        _listener.Start();
        _work = WorkAsync();
    }

    /// <summary>The name of the image.</summary>
    public string Image => $"localhost:{_port}/base:1";

    public async ValueTask DisposeAsync()
    {
        _listener.Close();
        await _work;
    }

    private void AddImage()
    {
        // An archive of nothing: two blocks of zeros end it.
        byte[] tar = new byte[1024];
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            gzip.Write(tar);
        }

        string architecture = RuntimeInformation.OSArchitecture == Architecture.Arm64 ? "arm64" : "amd64";
        byte[] layer = packed.ToArray();
        byte[] config = Encoding.UTF8.GetBytes(
            $$$"""{"architecture":"{{{architecture}}}","os":"linux","config":{"Env":["PATH=/usr/bin"]},"rootfs":{"type":"layers","diff_ids":["{{{Digest(tar)}}}"]},"history":[{"created_by":"nothing"}]}""");
        byte[] manifest = Encoding.UTF8.GetBytes(
            $$$"""
            {"schemaVersion":2,"mediaType":"{{{ManifestType}}}",
             "config":{"mediaType":"application/vnd.docker.container.image.v1+json","digest":"{{{Digest(config)}}}","size":{{{config.Length}}}},
             "layers":[{"mediaType":"application/vnd.docker.image.rootfs.diff.tar.gzip","digest":"{{{Digest(layer)}}}","size":{{{layer.Length}}}}]}
            """);
        _served["/v2/"] = ("application/json", "{}"u8.ToArray());
        _served["/v2/base/manifests/1"] = _served[$"/v2/base/manifests/{Digest(manifest)}"] = (ManifestType, manifest);
        _served[$"/v2/base/blobs/{Digest(config)}"] = ("application/octet-stream", config);
        _served[$"/v2/base/blobs/{Digest(layer)}"] = ("application/octet-stream", layer);
    }

    private static string Digest(byte[] content) => "sha256:" + Convert.ToHexStringLower(SHA256.HashData(content));

    private async Task WorkAsync()
    {
        while (true)
        {
            try
            {
                Answer(await _listener.GetContextAsync());
            }
            catch (Exception closed) when (closed is HttpListenerException or ObjectDisposedException)
            {
                if (!_listener.IsListening)
                {
                    return;
                }
            }
        }
    }

    private void Answer(HttpListenerContext context)
    {
        if (_served.TryGetValue(context.Request.Url!.AbsolutePath, out (string Type, byte[] Content) found))
        {
            context.Response.ContentType = found.Type;
            context.Response.Headers["Docker-Content-Digest"] = Digest(found.Content);
            context.Response.ContentLength64 = found.Content.Length;
            if (context.Request.HttpMethod != "HEAD")
            {
                context.Response.OutputStream.Write(found.Content);
            }
        }
        else
        {
            context.Response.StatusCode = (int)HttpStatusCode.NotFound;
        }

        context.Response.Close();
    }
}
