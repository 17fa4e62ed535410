using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.StaticFiles;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Logging;
using Shimwright.Browser.Running;

namespace Shimwright.Browser.Pocket;

/// <summary>The folder that the command pocket writes, on a plain host of files.</summary>
internal sealed class FolderHost : IAsyncDisposable
{
    private readonly WebApplication _server;

    private FolderHost(string folder, WebApplication server) => (Folder, _server) = (folder, server);

    public string Folder { get; }

    public Uri Address => new(_server.Urls.First());

    public static async Task<FolderHost> StartAsync()
    {
        string folder = Path.Combine(Directory.CreateTempSubdirectory("shimwright-pocket-").FullName, "pocket");
        await ProgramCommand.RunAsync("pocket", "--out", folder);
        WebApplicationBuilder builder = WebApplication.CreateBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        WebApplication server = builder.Build();
        FileExtensionContentTypeProvider types = new() { Mappings = { [".webmanifest"] = "application/manifest+json" } };
        PhysicalFileProvider files = new(folder);
        server.UseDefaultFiles(new DefaultFilesOptions { FileProvider = files });
        server.UseStaticFiles(new StaticFileOptions { FileProvider = files, ContentTypeProvider = types, OnPrepareResponse = c => c.Context.Response.Headers.CacheControl = "no-cache" });
        await server.StartAsync();
        return new(folder, server);
    }

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        Directory.Delete(Path.GetDirectoryName(Folder)!, recursive: true);
    }
}
