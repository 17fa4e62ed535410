using System.Formats.Tar;
using System.IO.Compression;
using System.Net;
using System.Text.Json.Nodes;
using Shimwright.Testing;
using Shimwright.Testing.Served;

namespace Shimwright.Cli.Tests.Running;

/// <summary>The container image, made as a person makes it, on an empty base image.</summary>
[Long]
public sealed class ContainerImageTests : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-image-").FullName;
    private JsonNode _config = null!;

    private string Files => Path.Combine(_folder, "files");

    public async ValueTask InitializeAsync()
    {
        string archive = Path.Combine(_folder, "image.tar");
        await using (var registry = new BaseImageRegistry())
        {
            // A build server that stayed would keep what it writes to open.
            await using var make = new ProgramProcess(
                Path.Combine(Repository.Root, "eng", "container"),
                [$"-p:ContainerBaseImage={registry.Image}", $"-p:ContainerArchiveOutputPath={archive}", "-p:UseSharedCompilation=false"],
                new Dictionary<string, string?> { ["MSBUILDDISABLENODEREUSE"] = "1" });
            int exit = await make.EndAsync();
            Assert.True(exit == 0, make.Said);
        }

        string parts = Path.Combine(_folder, "parts");
        Directory.CreateDirectory(parts);
        Directory.CreateDirectory(Files);
        await TarFile.ExtractToDirectoryAsync(archive, parts, overwriteFiles: true, TestContext.Current.CancellationToken);
        JsonNode image = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(parts, "manifest.json"), TestContext.Current.CancellationToken))![0]!;
        Assert.Contains("shimwright:latest", image["RepoTags"]!.AsArray().Select(t => t!.GetValue<string>()));
        _config = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(parts, image["Config"]!.GetValue<string>()), TestContext.Current.CancellationToken))!["config"]!;
        foreach (string layer in image["Layers"]!.AsArray().Select(l => l!.GetValue<string>()))
        {
            await using var gzip = new GZipStream(File.OpenRead(Path.Combine(parts, layer)), CompressionMode.Decompress);
            await TarFile.ExtractToDirectoryAsync(gzip, Files, overwriteFiles: true, TestContext.Current.CancellationToken);
        }
    }

    [Fact]
    public async Task Image_OfTheProgram_SaysHowItIsRunAndRuns()
    {
        Assert.Equal("1654", _config["User"]!.GetValue<string>());
        Assert.Equal("/app/", _config["WorkingDir"]!.GetValue<string>());
        Assert.Contains("7340/tcp", _config["ExposedPorts"]!.AsObject().Select(p => p.Key));
        Assert.Contains("XDG_DATA_HOME=/home/app", Texts("Env"));
        Assert.Equal(["dotnet", "/app/shimwright.dll"], Texts("Entrypoint"));
        Assert.Equal(["serve", "--container"], Texts("Cmd"));
        JsonNode labels = _config["Labels"]!;
        Assert.Equal("Shimwright", labels["org.opencontainers.image.title"]!.GetValue<string>());
        Assert.Equal("MIT", labels["org.opencontainers.image.licenses"]!.GetValue<string>());
        Assert.Matches(@"^\d+\.\d+\.\d+$", labels["org.opencontainers.image.version"]!.GetValue<string>());
        Assert.Null(labels["org.opencontainers.image.created"]);
        foreach (string file in new[] { "shimwright.dll", "LICENSE", "NOTICES.md", "wwwroot/bench.js", "wwwroot/app.css", "wwwroot/_framework/blazor.web.js", "pocket/index.html" })
        {
            Assert.True(new FileInfo(Path.Combine(Files, "app", file)).Length > 500, $"{file} is empty.");
        }

        await RunAsync();
    }

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    /// <summary>Runs what is in the layer as the image says, with the variables that it sets.</summary>
    private async Task RunAsync()
    {
        string program = Path.Combine(Files, "app", "shimwright.dll");
        Dictionary<string, string?> variables = Texts("Env").Select(v => v.Split('=', 2)).Where(v => v[0] != "PATH").ToDictionary(v => v[0], v => (string?)v[1], StringComparer.Ordinal);
        variables["XDG_DATA_HOME"] = Path.Combine(_folder, "home");
        await using var bench = new ProgramProcess("dotnet", [program, .. Texts("Cmd"), "--port", "0"], variables);
        Uri address = await bench.OpenAsync();
        using var client = new HttpClient { BaseAddress = address };
        Assert.Equal("ready", await client.GetStringAsync(new Uri("/readyz", UriKind.Relative), TestContext.Current.CancellationToken));
        Assert.True((await client.GetByteArrayAsync(new Uri("/_framework/blazor.web.js", UriKind.Relative), TestContext.Current.CancellationToken)).Length > 500);
        using var foreign = new HttpRequestMessage(HttpMethod.Get, "/") { Headers = { Host = "bench.example" } };
        using HttpResponseMessage refused = await client.SendAsync(foreign, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        await using (var ready = new ProgramProcess("dotnet", [program, "ready", "--port", $"{address.Port}"]))
        {
            Assert.Equal(0, await ready.EndAsync());
        }

        Assert.True(File.Exists(Path.Combine(_folder, "home", "shimwright", "bench.db")), "What is kept lies elsewhere.");
        // Nothing that is only true of a folder of the container, and an address that can be opened.
        Assert.Contains("The bench is open at http://localhost:", bench.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("warn:", bench.Said, StringComparison.Ordinal);
        bench.Terminate();
        Assert.Equal(0, await bench.EndAsync());
    }

    private string[] Texts(string name) => [.. _config[name]!.AsArray().Select(t => t!.GetValue<string>())];
}
