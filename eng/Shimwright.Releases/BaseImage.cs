using System.IO.Compression;
using System.Net;
using System.Net.Sockets;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;

namespace Shimwright.Releases;

/// <summary>
/// A registry on this machine with one image of one layer, so that an image can be laid on it where no other registry is reached.
/// As the OCI distribution specification has it: manifests by tag or digest, blobs by digest. The manifest is of the older kind, as that of the usual base image.
/// </summary>
internal sealed class BaseImage : IAsyncDisposable
{
    private const string ManifestType = "application/vnd.docker.distribution.manifest.v2+json";

    private readonly HttpListener _listener = new();
    private readonly Dictionary<string, (string Type, byte[] Content)> _served = new(StringComparer.Ordinal);
    private readonly int _port;
    private readonly Task _work;

    /// <summary>Hands out an image.</summary>
    /// <param name="layer">Its layer, a .tar.gz.</param>
    public BaseImage(byte[] layer)
    {
        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        _port = ((IPEndPoint)free.LocalEndpoint).Port;
        free.Stop();
        Add(layer);
        _listener.Prefixes.Add($"http://localhost:{_port}/");
        _listener.Start();
        _work = WorkAsync();
    }

    /// <summary>The name of the image.</summary>
    public string Name => $"localhost:{_port}/base:1";

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _listener.Close();
        await _work;
    }

    private void Add(byte[] layer)
    {
        string architecture = RuntimeInformation.OSArchitecture == Architecture.Arm64 ? "arm64" : "amd64";
        byte[] config = Encoding.UTF8.GetBytes(
            $$$"""
            {"architecture":"{{{architecture}}}","os":"linux","config":{"Env":["PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin"]},
             "rootfs":{"type":"layers","diff_ids":["{{{Digest(Unpacked(layer))}}}"]},"history":[{"created_by":"eng/base-image"}]}
            """);
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

    private static byte[] Unpacked(byte[] layer)
    {
        using GZipStream gzip = new(new MemoryStream(layer), CompressionMode.Decompress);
        using MemoryStream tar = new();
        gzip.CopyTo(tar);
        return tar.ToArray();
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
