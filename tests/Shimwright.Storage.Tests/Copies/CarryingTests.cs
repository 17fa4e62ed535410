using Shimwright.Jobs.Fitting;
using Shimwright.Storage.Copies;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Database;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Copies;

/// <summary>A bench that is copied, put back, or carried from one database to another says afterwards what it said before.</summary>
public class CarryingTests
{
    [Theory]
    [InlineData(DatabaseKind.Sqlite, DatabaseKind.Postgres)]
    [InlineData(DatabaseKind.Postgres, DatabaseKind.Sqlite)]
    [Testing.Long]
    public async Task Export_IntoAnotherKindOfDatabaseAndBack_IsTheSameRowForRow(DatabaseKind kind, DatabaseKind other)
    {
        await using TestDatabase first = await WholeBench.OnAsync(kind), second = await TestDatabase.PreparedAsync(other), third = await TestDatabase.PreparedAsync(kind);
        string folder = FolderOf(first, second, third);
        string there = Path.Combine(folder, "there.zip"), back = Path.Combine(folder, "back.zip");
        IReadOnlyList<string> lines = await first.Bench.LinesAsync();
        Assert.True(lines.Count > 300 && lines.Select(l => l.Split(' ')[0]).Distinct().Count() == 10, $"{lines.Count} rows");

        await first.Bench.ExportAsync(there, replaces: false, cancel: Cancel);
        await second.Bench.ImportAsync(there, cancel: Cancel);
        await second.Bench.ExportAsync(back, replaces: false, cancel: Cancel);
        await third.Bench.ImportAsync(back, cancel: Cancel);

        Assert.Equal(lines, ArchiveText.LinesOf(there));
        Assert.Equal(lines, ArchiveText.LinesOf(back));
        Assert.Equal(lines, await third.Bench.LinesAsync());
        Assert.Empty((await third.Bench.CheckAsync(cancel: Cancel)).Damage);
        await AssertGoesOnAsync(third.Bench);
    }

    [Theory]
    [OnEachDatabase]
    public async Task Export_OfADatabaseOfTheFirstProgram_IsTakenInWhole(DatabaseKind kind)
    {
        await using TestDatabase first = await TestDatabase.EmptyAsync(kind), second = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        Guid job = await FirstProgram.MakeAsync(first);
        await first.Bench.PrepareAsync(Cancel);
        string archive = Path.Combine(FolderOf(first, second), "first.zip");
        await first.Bench.ExportAsync(archive, replaces: false, cancel: Cancel);
        await second.Bench.ImportAsync(archive, cancel: Cancel);
        Assert.Equal(await first.Bench.LinesAsync(), await second.Bench.LinesAsync());
        Assert.Equal((await first.Bench.FindJobAsync(job)).Sheet.Entries, (await second.Bench.FindJobAsync(job)).Sheet.Entries);
        Assert.Equal(0, (await first.Bench.CheckAsync(cancel: Cancel)).WithoutSum);
    }

    [Theory]
    [OnEachDatabase]
    [Testing.Long]
    public async Task Restore_OfABackup_PutsTheBenchBackAndSetsThePresentOneAside(DatabaseKind kind)
    {
        await using TestDatabase database = await WholeBench.OnAsync(kind);
        string copy = Path.Combine(FolderOf(database), "copy");
        IReadOnlyList<string> then = await database.Bench.LinesAsync();
        SoundReport report = await database.Bench.BackUpAsync(copy, replaces: false, cancel: Cancel);
        Assert.Equal(then.Count(l => l.StartsWith("facts", StringComparison.Ordinal)), report.Facts);

        Guid later = await database.Bench.StartJobAsync();
        IReadOnlyList<string> now = await database.Bench.LinesAsync();
        await database.CloseAsync();
        RestoredBench restored = await database.Another().RestoreAsync(copy, cancel: Cancel);
        Assert.Equal(then, await database.Another().LinesAsync());
        Assert.Null(await database.Another().Jobs.FindAsync(later, Cancel));

        // And there again.
        Assert.NotNull(restored.Aside);
        await database.CloseAsync();
        await database.Another().RestoreAsync(restored.Aside, cancel: Cancel);
        Assert.Equal(now, await database.Another().LinesAsync());
        await AssertGoesOnAsync(database.Another());
    }

    [Fact]
    public async Task Restore_WhileTheBenchIsOpen_IsRefusedAndChangesNothing()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        Guid job = await database.Bench.StartJobAsync();
        string copy = Path.Combine(FolderOf(database), "copy.db");
        await database.Bench.BackUpAsync(copy, replaces: false, cancel: Cancel);
        await using (await database.Bench.HoldAsync(Cancel))
        {
            BenchDatabaseException refused = await Assert.ThrowsAsync<BenchDatabaseException>(() => database.Another().RestoreAsync(copy, cancel: Cancel));
            Assert.Contains("has this bench open", refused.Message, StringComparison.Ordinal);
            await database.Bench.SaveAsync(job, new Shimwright.Jobs.Facts.JobNoted("still there"));
        }

        Assert.Equal([database.Address, copy], Files(FolderOf(database)));
        Assert.Single((await database.Bench.FindJobAsync(job)).Sheet.Entries);
    }

    [Fact]
    public async Task Restore_OfWhatIsNoSoundCopy_IsRefusedAndChangesNothing()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await database.Bench.StartJobAsync();
        IReadOnlyList<string> before = await database.Bench.LinesAsync();
        string folder = FolderOf(database);
        string good = Path.Combine(folder, "good.db"), cut = Path.Combine(folder, "cut.db"), early = Path.Combine(folder, "early.db"), text = Path.Combine(folder, "text.db"), archive = Path.Combine(folder, "cut.zip");
        await database.Bench.BackUpAsync(good, replaces: false, cancel: Cancel);
        await File.WriteAllBytesAsync(cut, (await File.ReadAllBytesAsync(good, Cancel))[..60_000], Cancel);
        await File.WriteAllBytesAsync(early, (await File.ReadAllBytesAsync(good, Cancel))[..4096], Cancel);
        await File.WriteAllTextAsync(text, "no bench", Cancel);
        await database.Bench.ExportAsync(archive, replaces: false, cancel: Cancel);
        await File.WriteAllBytesAsync(archive, (await File.ReadAllBytesAsync(archive, Cancel))[..^200], Cancel);
        await database.CloseAsync();
        foreach (string wrong in (string[])[cut, early, text, archive, Path.Combine(folder, "none.db")])
        {
            BenchDatabaseException refused = await Assert.ThrowsAsync<BenchDatabaseException>(() => database.Another().RestoreAsync(wrong, cancel: Cancel));
            Assert.StartsWith(wrong, refused.Message, StringComparison.Ordinal);
        }

        Assert.DoesNotContain(Files(folder), f => f.Contains(".before-", StringComparison.Ordinal) || f.Contains(".part", StringComparison.Ordinal));
        Assert.Equal(before, await database.Another().LinesAsync());
    }

    [Fact]
    public async Task Import_IntoABenchThatIsNotEmpty_IsRefused()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await database.Bench.AddEngineAsync();
        IReadOnlyList<string> before = await database.Bench.LinesAsync();
        string archive = Path.Combine(FolderOf(database), "a.zip");
        await database.Bench.ExportAsync(archive, replaces: false, cancel: Cancel);
        Assert.Contains("not empty", (await Assert.ThrowsAsync<BenchDatabaseException>(() => database.Bench.ImportAsync(archive, cancel: Cancel))).Message, StringComparison.Ordinal);
        Assert.Equal(before, await database.Bench.LinesAsync());
        Assert.Contains("already", (await Assert.ThrowsAsync<BenchDatabaseException>(() => database.Bench.ExportAsync(archive, replaces: false, cancel: Cancel))).Message, StringComparison.Ordinal);
    }

    /// <summary>New work can be added to what was carried: numbers go on where they were.</summary>
    private static async Task AssertGoesOnAsync(BenchDatabase bench)
    {
        Guid job = await bench.WorkedJobAsync();
        await bench.SaveAsync(job, new Shimwright.Jobs.Facts.JobClosed(118, "", "", ""));
        Assert.Equal(JobStage.Closed, (await bench.FindJobAsync(job)).Summary.Stage);
        await bench.Drawer.AddAsync(new(Shimwright.Bench.Drawer.ShimSize.Of(9.48, 2.5, "marked"), 3), new(Guid.NewGuid(), "phone"), Cancel);
        Assert.Empty((await bench.CheckAsync(cancel: Cancel)).Damage);
    }

    private static string FolderOf(params TestDatabase[] databases) =>
        databases.Select(d => d.Address).FirstOrDefault(a => !BenchDatabase.IsServer(a)) is { } file ? Path.GetDirectoryName(file)! : Directory.CreateTempSubdirectory("shimwright-copies-").FullName;

    private static IEnumerable<string> Files(string folder) => Directory.EnumerateFiles(folder).Where(f => !f.EndsWith("-wal", StringComparison.Ordinal) && !f.EndsWith("-shm", StringComparison.Ordinal)).Order(StringComparer.Ordinal);
}
