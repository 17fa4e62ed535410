using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Engines;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;
using Shimwright.Storage;

namespace Shimwright.Cli.Tests.Commands;

/// <summary>A bench that is copied, looked over, carried away and put back by commands, as a person or a script does it.</summary>
public sealed class CopyCommandsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-cli-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Commands_InTheirOrder_CopyCheckCarryAndPutBack()
    {
        string bench = await BenchAsync(), copy = At("copy.db"), archive = At("a.zip"), other = At("other.db");
        Assert.Equal((ExitCode.Done, $"Copied to {copy}, and read again: 1 engine, 1 job with 29 facts, 0 drawer entries."), Run("backup", copy, "--db", bench));
        Assert.Equal((ExitCode.Done, $"{bench} is sound: 1 engine, 1 job with 29 facts, 0 drawer entries, each as it was written."), Run("check", "--db", bench));
        Assert.Equal((ExitCode.Done, $"Exported to {archive}, and read again: 1 engine, 1 job with 29 facts, 0 drawer entries."), Run("export", archive, "--db", bench));
        Assert.Equal((ExitCode.Done, $"{other} holds now what {archive} does: 1 engine, 1 job with 29 facts, 0 drawer entries."), Run("import", archive, "--db", other));
        EngineSummary engine = Assert.Single(await ListAsync(bench));
        Assert.Empty(await BenchDatabase.At(bench, TimeProvider.System).Engines.RemoveAsync(engine.Id, engine.Name, Cancel));
        Assert.Empty(await ListAsync(bench));
        SqliteConnection.ClearAllPools();
        (int exit, string said) = Run("restore", copy, "--db", bench);
        Assert.Equal(ExitCode.Done, exit);
        Assert.StartsWith($"{bench} is now as it was in {copy}: 1 engine, 1 job with 29 facts, 0 drawer entries. As it was before, it lies in {bench}.before-", said, StringComparison.Ordinal);
        Assert.Single(await ListAsync(bench));
    }

    [Fact]
    public async Task Commands_WithJson_PrintOneDocument()
    {
        string bench = await BenchAsync();
        foreach (string[] args in (string[][])[["backup", At("c.db"), "--db", bench, "--json"], ["export", At("c.zip"), "--db", bench, "--json"], ["check", "--db", bench, "--json"], ["import", At("c.zip"), "--db", At("n.db"), "--json"]])
        {
            JsonNode answer = JsonNode.Parse(Run(args).Said)!;
            Assert.Equal((1, 1, 29, 0), ((int)answer["engines"]!, (int)answer["jobs"]!, (int)answer["facts"]!, (int)answer["drawerEntries"]!));
        }

        Assert.True((bool)JsonNode.Parse(Run("check", "--db", bench, "--json").Said)!["sound"]!);
    }

    [Theory]
    [InlineData("backup there.db --db bench.db", "there is such a file already, and it was left as it is; name another, or add --replace")]
    [InlineData("export there.db --db bench.db", "there is such a file already")]
    [InlineData("backup no/folder/c.db --db bench.db", "the copy could not be written")]
    [InlineData("backup c.db --db none.db", "there is no bench here; name its file with --db")]
    [InlineData("export c.zip --db none.db", "there is no bench here")]
    [InlineData("check --db none.db", "there is no bench here")]
    [InlineData("import none.zip --db new.db", "there is no such file")]
    [InlineData("import there.db --db new.db", "this archive cannot be taken in, and nothing was changed")]
    [InlineData("restore none.db --db bench.db", "there is no such file")]
    [InlineData("restore there.db --db bench.db", "there is no bench in this file")]
    public async Task Commands_ThatCannotBeDone_SayWhyAndWhatToDo(string line, string words)
    {
        await BenchAsync();
        await File.WriteAllTextAsync(At("there.db"), "", Cancel);
        string[] args = [.. line.Split(' ').Select((a, i) => i > 0 && a.Contains('.', StringComparison.Ordinal) ? At(a) : a)];
        ProgramRun run = ProgramRun.Of(args);
        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.StartsWith("shimwright: ", run.Error, StringComparison.Ordinal);
        Assert.Contains(words, run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(At("none.db")));
        Assert.Equal("", await File.ReadAllTextAsync(At("there.db"), Cancel));
    }

    [Fact]
    public void Schema_OfTheArchive_IsTheOneInTheDocs()
    {
        ProgramRun run = ProgramRun.Of("schema", "--archive");
        Assert.Equal(ArchiveSchema.Text(), run.Output);
        DirectoryInfo? root = new(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(root!.FullName, "Shimwright.slnx")))
        {
            root = root.Parent;
        }

        Assert.Equal(File.ReadAllText(Path.Combine(root.FullName, "docs", "archive.schema.json")), run.Output);
    }

    private static async Task<IReadOnlyList<EngineSummary>> ListAsync(string bench) => await BenchDatabase.At(bench, TimeProvider.System).Engines.ListAsync(null, 0, 10, Cancel);

    private static (int Exit, string Said) Run(params string[] args)
    {
        ProgramRun run = ProgramRun.Of(args);
        Assert.Equal("", run.Error);
        return (run.Exit, run.Output.Trim());
    }

    private string At(string name) => Path.Combine(_folder, name);

    private Task<string> BenchAsync() => BenchFile.MakeAsync(At("bench.db"));
}
