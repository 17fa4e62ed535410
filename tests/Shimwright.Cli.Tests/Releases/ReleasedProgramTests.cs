using System.Formats.Tar;
using System.IO.Compression;
using System.Net;
using System.Net.Http.Headers;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Shimwright.Cli.Tests.Running;
using Shimwright.Cli.Tests.Samples;
using Shimwright.Testing;
using Shimwright.Testing.Served;

namespace Shimwright.Cli.Tests.Releases;

/// <summary>
/// A release, made as a person makes it, unpacked into an empty folder and run as by somebody who has no SDK. SHIMWRIGHT_TEST_RELEASE names one that is made already.
/// </summary>
[Nightly]
public sealed partial class ReleasedProgramTests : IAsyncLifetime
{
    private static readonly string Machine = (OperatingSystem.IsMacOS() ? "osx-" : "linux-") + RuntimeInformation.OSArchitecture.ToString().ToLowerInvariant();

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-released-").FullName;
    private string _release = null!;
    private string _version = null!;

    public async ValueTask InitializeAsync()
    {
        if (Environment.GetEnvironmentVariable("SHIMWRIGHT_TEST_RELEASE") is { Length: > 0 } made)
        {
            _release = made;
            _version = Path.GetFileName(Path.TrimEndingDirectorySeparator(made));
            return;
        }

        await using var make = new ProgramProcess(Path.Combine(Repository.Root, "eng", "release"), ["--dirty", "--only", Machine + ",tool,pocket"]);
        int exit = await make.EndAsync(TimeSpan.FromMinutes(40));
        Assert.True(exit == 0, make.Said);
        _version = Made().Match(make.Said).Groups[1].Value;
        _release = Path.Combine(Repository.Root, "artifacts", "release", _version);
    }

    [Fact]
    public async Task Release_OnAMachineWithoutAnSdk_RunsAsTheBuiltProgramDoes()
    {
        CheckSums();
        CheckPapers();

        string unpacked = Path.Combine(_folder, "unpacked");
        Directory.CreateDirectory(unpacked);
        await using (var gzip = new GZipStream(File.OpenRead(Path.Combine(_release, $"shimwright-{_version}-{Machine}.tar.gz")), CompressionMode.Decompress))
        {
            await TarFile.ExtractToDirectoryAsync(gzip, unpacked, overwriteFiles: false, TestContext.Current.CancellationToken);
        }

        string folder = Path.Combine(unpacked, $"shimwright-{_version}");
        Assert.All(["LICENSE", "NOTICES.md", "THIRD-PARTY-NOTICES.txt"], f => Assert.True(File.Exists(Path.Combine(folder, f)), f));
        await CheckProgramAsync("single", Path.Combine(folder, "shimwright"), null);

        string tools = Path.Combine(_folder, "tools");
        await using (var install = new ProgramProcess("dotnet", ["tool", "install", "Shimwright", "--version", _version, "--tool-path", tools, "--source", _release]))
        {
            int exit = await install.EndAsync();
            Assert.True(exit == 0, install.Said);
        }

        // A tool runs on the runtime of an SDK, wherever that is.
        await CheckProgramAsync("tool", Path.Combine(tools, "shimwright"), Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..")));
    }

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    private async Task CheckProgramAsync(string name, string program, string? runtime)
    {
        string home = Path.Combine(_folder, name + "-home");
        string path = Path.Combine(_folder, name + "-path");
        Directory.CreateDirectory(home);
        Directory.CreateDirectory(path);
        Dictionary<string, string?> bare = new(StringComparer.Ordinal)
        {
            ["DOTNET_ROOT"] = runtime,
            ["PATH"] = path,
            ["HOME"] = home,
            ["XDG_DATA_HOME"] = null,
            ["DOTNET_BUNDLE_EXTRACT_BASE_DIR"] = null,
        };
        Assert.Equal(_version, (await SaysAsync(program, bare, "--version")).TrimEnd());
        string job = Demo.At("02-worn-four.json");
        Assert.Equal(ProgramRun.Of("plan", job, "--json").Output, await SaysAsync(program, bare, "plan", job, "--json"));
        Assert.Contains("demo/10-by-depth.json", await SaysAsync(program, bare, "demo", "--once"), StringComparison.Ordinal);

        string pocket = Path.Combine(_folder, name + "-pocket");
        await SaysAsync(program, bare, "pocket", "--out", pocket);
        CheckPocket(pocket);

        await using var bench = new ProgramProcess(program, ["serve", "--db", Path.Combine(_folder, name, "bench.db"), "--port", "0"], bare);
        using var client = new HttpClient { BaseAddress = await bench.OpenAsync() };
        Assert.Equal("ready", await client.GetStringAsync(new Uri("/readyz", UriKind.Relative), TestContext.Current.CancellationToken));
        string page = await client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        // Every style and script that the page names is there: they lie beside the program.
        string[] files = [.. PageFile().Matches(page).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value))];
        Assert.True(files.Length > 2, page);
        foreach (string file in (string[])[.. files, "/pocket/index.html"])
        {
            using HttpResponseMessage answer = await client.GetAsync(new Uri(file, UriKind.RelativeOrAbsolute), TestContext.Current.CancellationToken);
            Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{file}: {answer.StatusCode}");
        }

        using var sent = new ByteArrayContent(await File.ReadAllBytesAsync(job, TestContext.Current.CancellationToken)) { Headers = { ContentType = new MediaTypeHeaderValue("application/json") } };
        using HttpResponseMessage planned = await client.PostAsync(new Uri("/api/v1/plan", UriKind.Relative), sent, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, planned.StatusCode);
        bench.Terminate();
        Assert.Equal(0, await bench.EndAsync());
        // Nothing was unpacked to be run: a home that cannot be written to is no hindrance.
        Assert.False(Directory.Exists(Path.Combine(home, ".net")));
    }

    /// <summary>What the program writes is what the release's own zip has, and starts with nothing beside it.</summary>
    private void CheckPocket(string folder)
    {
        using ZipArchive zip = ZipFile.OpenRead(Path.Combine(_release, $"shimwright-{_version}-pocket.zip"));
        string[] papers = ["LICENSE", "NOTICES.md", "THIRD-PARTY-NOTICES.txt"];
        string[] packed = [.. zip.Entries.Select(e => e.FullName.Split('/', 2)[1]).Except(papers, StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        Assert.Contains("index.html", packed);
        Assert.Equal(packed, Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(folder, f)).Order(StringComparer.Ordinal));
    }

    private void CheckSums()
    {
        string[] lines = File.ReadAllLines(Path.Combine(_release, "SHA256SUMS"));
        Assert.Equal(
            Directory.EnumerateFiles(_release).Select(Path.GetFileName).Where(f => f != "SHA256SUMS").Order(StringComparer.Ordinal),
            lines.Select(l => l.Split("  ", 2)[1]));
        Assert.All(lines, line => Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(_release, line.Split("  ", 2)[1])))), line.Split(' ')[0]));
    }

    private void CheckPapers()
    {
        Assert.StartsWith($"# Shimwright {_version}\n", File.ReadAllText(Path.Combine(_release, "CHANGES.md")), StringComparison.Ordinal);
        string text = File.ReadAllText(Path.Combine(_release, $"shimwright-{_version}.cdx.json"));
        Assert.DoesNotContain(Repository.Root, text, StringComparison.Ordinal);
        string[] names = [.. JsonNode.Parse(text)!["components"]!.AsArray().Select(c => c!["name"]!.GetValue<string>())];
        // The runtimes are named too: that of the program and that of the pocket.
        Assert.All(
            ["Microsoft.NETCore.App.Runtime." + Machine, "Microsoft.AspNetCore.App.Runtime." + Machine, "Microsoft.NETCore.App.Runtime.Mono.browser-wasm", "SQLitePCLRaw.lib.e_sqlite3"],
            name => Assert.Contains(name, names));
    }

    private static async Task<string> SaysAsync(string program, IReadOnlyDictionary<string, string?> variables, params string[] args)
    {
        await using var run = new ProgramProcess(program, args, variables);
        int exit = await run.EndAsync();
        Assert.True(exit == 0, $"{string.Join(' ', args)}: {exit}\n{run.Said}");
        return run.Said;
    }

    [GeneratedRegex(@"all of it is in artifacts/release/(\S+)")]
    private static partial Regex Made();

    [GeneratedRegex("""(?:src|<link[^>]* href)="([^"#?]+\.(?:js|css)[^"]*)""")]
    private static partial Regex PageFile();
}
