using System.Formats.Tar;
using System.Net;
using System.Text.Json.Nodes;
using Shimwright.Releases;
using Shimwright.Testing;
using Shimwright.Testing.Served;

namespace Shimwright.Cli.Tests.Running;

/// <summary>
/// The container image, made as a person makes it. On a Debian, as root, it lies on the base that eng/base-image makes, and runs in it with nothing
/// of this machine but its kernel; elsewhere on an empty base, with the runtime of this machine.
/// </summary>
[Long]
public sealed class ContainerImageTests : IAsyncLifetime
{
    private static readonly bool IsWhole = OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess && File.Exists("/etc/debian_version") && MayUnshare();

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-image-").FullName;
    private JsonNode _config = null!;

    private string Files => Path.Combine(_folder, "files");

    public async ValueTask InitializeAsync()
    {
        string archive = Path.Combine(_folder, "image.tar");
        // An archive of nothing: two blocks of zeros end it.
        await using (var empty = new BaseImage(ContainerArchive.Packed(new byte[1024])))
        {
            // A build server that stayed would keep what it writes to open.
            await RunAsync(
                Path.Combine(Repository.Root, "eng", "container"),
                [.. IsWhole ? ["--own-base"] : new[] { $"-p:ContainerBaseImage={empty.Name}" }, $"-p:ContainerArchiveOutputPath={archive}", "-p:UseSharedCompilation=false"],
                new() { ["MSBUILDDISABLENODEREUSE"] = "1" });
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
            // With the owners of the files, as root.
            await RunAsync("tar", ["-x", "-z", "-p", "--numeric-owner", "-f", Path.Combine(parts, layer), "-C", Files], []);
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

        if (IsWhole)
        {
            // Where OpenSSL looks for the certificates that it trusts.
            string trusted = new FileInfo(Path.Combine(Files, "usr/lib/ssl/cert.pem")).LinkTarget!;
            Assert.True(new FileInfo(Files + trusted).Length > 100_000, "No certificates.");
        }

        await RunAsync();
    }

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    /// <summary>Runs what is in the image as it says, with the variables that it sets.</summary>
    private async Task RunAsync()
    {
        Dictionary<string, string?> variables = Texts("Env").Select(v => v.Split('=', 2)).ToDictionary(v => v[0], v => (string?)v[1], StringComparer.Ordinal);
        string home = Path.Combine(Files, "home", "app");
        if (!IsWhole)
        {
            home = Path.Combine(_folder, "home");
            variables["XDG_DATA_HOME"] = home;
            variables.Remove("PATH");
        }

        await using ProgramProcess bench = InImage([.. Texts("Entrypoint"), .. Texts("Cmd"), "--port", "0"], variables);
        Uri address = await bench.OpenAsync();
        using var client = new HttpClient { BaseAddress = address };
        Assert.Equal("ready", await client.GetStringAsync(new Uri("/readyz", UriKind.Relative), TestContext.Current.CancellationToken));
        Assert.True((await client.GetByteArrayAsync(new Uri("/_framework/blazor.web.js", UriKind.Relative), TestContext.Current.CancellationToken)).Length > 500);
        using var foreign = new HttpRequestMessage(HttpMethod.Get, "/") { Headers = { Host = "bench.example" } };
        using HttpResponseMessage refused = await client.SendAsync(foreign, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        await EndAsync(InImage([.. Texts("Entrypoint"), "ready", "--port", $"{address.Port}"], variables));
        await EndAsync(InImage([.. Texts("Entrypoint"), "plan", _config["WorkingDir"]!.GetValue<string>() + "demo/02-worn-four.json"], variables));
        Assert.True(File.Exists(Path.Combine(home, "shimwright", "bench.db")), "What is kept lies elsewhere.");
        // Nothing that is only true of a folder of the container, and an address that can be opened.
        Assert.Contains("The bench is open at http://localhost:", bench.Said, StringComparison.Ordinal);
        Assert.DoesNotContain("warn:", bench.Said, StringComparison.Ordinal);
        bench.Terminate();
        Assert.Equal(0, await bench.EndAsync());
    }

    /// <summary>Runs a command of the image: in it as its user, or with this machine's runtime.</summary>
    private ProgramProcess InImage(string[] command, IReadOnlyDictionary<string, string?> variables)
    {
        if (!IsWhole)
        {
            string folder = _config["WorkingDir"]!.GetValue<string>();
            return new(command[0], command[1..].Select(a => a.StartsWith(folder, StringComparison.Ordinal) ? Files + a : a), variables);
        }

        // As an engine would: the image's files, the kernel's own, the image's variables and no others.
        const string Enter = """
            mkdir -p "$1/proc" "$1/dev" && mount -t proc proc "$1/proc" && mount --rbind /dev "$1/dev" && shift && exec env -i "$@"
            """;
        string user = _config["User"]!.GetValue<string>();
        return new(
            "unshare",
            [
                "--mount", "sh", "-c", Enter, "enter", Files,
                .. variables.Select(v => $"{v.Key}={v.Value}"), "/usr/sbin/chroot", $"--userspec={user}:{user}", Files, .. command,
            ]);
    }

    /// <summary>Root in a container may not.</summary>
    private static bool MayUnshare()
    {
        using var unshare = System.Diagnostics.Process.Start("unshare", ["--mount", "true"]);
        unshare.WaitForExit();
        return unshare.ExitCode == 0;
    }

    private static async Task EndAsync(ProgramProcess command)
    {
        await using (command)
        {
            int exit = await command.EndAsync();
            Assert.True(exit == 0, command.Said);
        }
    }

    private static async Task RunAsync(string file, IEnumerable<string> args, Dictionary<string, string?> variables) => await EndAsync(new(file, args, variables));

    private string[] Texts(string name) => [.. _config[name]!.AsArray().Select(t => t!.GetValue<string>())];
}
