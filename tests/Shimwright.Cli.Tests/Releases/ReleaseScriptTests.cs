using Shimwright.Cli.Tests.Running;
using Shimwright.Testing.Served;

namespace Shimwright.Cli.Tests.Releases;

/// <summary>What eng/release says before it builds anything, in a repository of its own.</summary>
public sealed class ReleaseScriptTests : IAsyncLifetime
{
    private const string Changes = """
        # Changes

        ## 0.4.0, not released yet

        - A dial.

        ## 0.3.0, 2026-09-01

        - A lamp.

        ## 0.3, an older way to count

        - Nothing.

        """;

    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-release-").FullName;

    public async ValueTask InitializeAsync()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "eng"));
        File.Copy(Path.Combine(Repository.Root, "eng", "release"), Path.Combine(_folder, "eng", "release"));
        await File.WriteAllTextAsync(Path.Combine(_folder, "CHANGELOG.md"), Changes, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(Path.Combine(_folder, "Directory.Build.props"), "<Project><PropertyGroup><Version>0.4.0</Version></PropertyGroup></Project>", TestContext.Current.CancellationToken);
        await GitAsync("init", "--quiet");
        await GitAsync("add", ".");
        await CommitAsync("first");
    }

    [Fact]
    public async Task PrintVersion_OfATaggedCommit_IsTheTagAndAfterItNamesTheCommit()
    {
        await GitAsync("tag", "nightly");
        Assert.Matches(@"^0\.4\.0-dev\.1\.g[0-9a-f]{10}$", await SaysAsync(0, "--print-version"));
        await GitAsync("tag", "v0.4.0-rc.2");
        Assert.Equal("0.4.0-rc.2", await SaysAsync(0, "--print-version"));
        await CommitAsync("second");
        Assert.Matches(@"^0\.4\.0-dev\.2\.g[0-9a-f]{10}$", await SaysAsync(0, "--print-version"));
    }

    [Fact]
    public async Task Notes_OfAVersion_AreItsPartOfTheChangelogAlone()
    {
        Assert.Equal("# Shimwright 0.3.0\n\n- A lamp.", await SaysAsync(0, "--notes", "v0.3.0"));
        Assert.Equal("# Shimwright 0.4.0-rc.1\n\n- A dial.", await SaysAsync(0, "--notes", "0.4.0-rc.1"));
        Assert.Contains("not released yet", await SaysAsync(1, "--notes", "0.4.0"), StringComparison.Ordinal);
        Assert.Contains("has no part for 0.5.0", await SaysAsync(1, "--notes", "0.5.0"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("there is no part 'linux'. The parts are: win-x64 linux-x64 linux-arm64 osx-arm64 tool pocket container", "--only", "tool,linux")]
    [InlineData("'1.2' is no version", "1.2")]
    [InlineData("'01.2.3' is no version", "01.2.3")]
    [InlineData("there is no option --fast", "--fast")]
    [InlineData("one version at a time", "1.2.3", "1.2.4")]
    public async Task Release_AskedForWhatIsNot_SaysWhatThereIs(string expected, params string[] args) =>
        Assert.Contains(expected, await SaysAsync(2, args), StringComparison.Ordinal);

    [Fact]
    public async Task Release_OfWhatIsNotCommitted_IsRefusedAndLeavesNothing()
    {
        await File.WriteAllTextAsync(Path.Combine(_folder, "stray.txt"), "stray", TestContext.Current.CancellationToken);
        Assert.Contains("changes that are not committed", await SaysAsync(1, "0.3.0"), StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(_folder, "artifacts")));
    }

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    private Task CommitAsync(string message) =>
        GitAsync("-c", "user.name=Somebody", "-c", "user.email=somebody@bench.example", "-c", "commit.gpgsign=false", "commit", "--quiet", "--allow-empty", "-m", message);

    private async Task GitAsync(params string[] args)
    {
        await using var git = new ProgramProcess("git", ["-C", _folder, .. args]);
        int exit = await git.EndAsync();
        Assert.True(exit == 0, git.Said);
    }

    private async Task<string> SaysAsync(int expected, params string[] args)
    {
        await using var script = new ProgramProcess(Path.Combine(_folder, "eng", "release"), args);
        int exit = await script.EndAsync();
        Assert.True(exit == expected, $"{exit}: {script.Said}");
        return script.Said.ReplaceLineEndings("\n").TrimEnd('\n');
    }
}
