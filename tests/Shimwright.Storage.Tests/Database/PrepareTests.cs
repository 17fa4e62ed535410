using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Storage.Database;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Database;

public class PrepareTests
{
    [Theory]
    [OnEachDatabase]
    public async Task PrepareAsync_NothingThereYet_MakesTheTables(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(kind);
        Assert.Null(await database.Bench.PrepareAsync(Cancel));
        Assert.True(await database.Bench.AnswersAsync(Cancel));
        Guid job = await database.Bench.StartJobAsync();
        Assert.Equal(JobStage.Measure, (await database.Bench.FindJobAsync(job)).Summary.Stage);
    }

    [Theory]
    [OnEachDatabase]
    public async Task PrepareAsync_ASecondTime_ChangesNothing(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid job = await database.Bench.StartJobAsync();
        Assert.Null(await database.Another().PrepareAsync(Cancel));
        Assert.NotNull(await database.Another().Jobs.FindAsync(job, Cancel));
        Assert.Empty(Copies(database));
    }

    [Theory]
    [OnEachDatabase]
    public async Task PrepareAsync_FourStartsAtOnce_AllSucceed(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(kind);
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => database.Another().PrepareAsync(Cancel), Cancel)));
        await database.Bench.StartJobAsync();
    }

    [Theory]
    [OnEachDatabase]
    public async Task PrepareAsync_DatabaseOfTheFirstProgram_IsBroughtUpWithItsContent(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(kind);
        Guid job = await FirstProgram.MakeAsync(database);
        if (database.Bench.File is { } kept && !OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(kept, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.OtherRead);
        }

        string? copy = await database.Bench.PrepareAsync(Cancel);
        StoredJob found = await database.Bench.FindJobAsync(job);
        Assert.Equal([new JobNoted("from before")], found.Sheet.Entries.Select(e => e.Fact));
        Assert.NotNull(await database.Bench.Due.FindAsync(found.Summary.EngineId, Cancel));
        Assert.Equal([1, 2], (await database.Bench.Jobs.OfEngineAsync(found.Summary.EngineId, Cancel)).Select(j => j.Number).Order());
        Assert.Equal(3, (await database.Bench.FindJobAsync(await database.Bench.StartJobAsync(found.Summary.EngineId))).Summary.Number);
        if (kind == DatabaseKind.Postgres)
        {
            Assert.Null(copy);
            return;
        }

        Assert.Equal([$"{database.Address}.before-20260301-080000"], Copies(database));
        Assert.True(OperatingSystem.IsWindows() || File.GetUnixFileMode(database.Address) == (UnixFileMode.UserRead | UnixFileMode.UserWrite));
        Assert.Equal(Copies(database).Single(), copy);
        await using BenchContext old = BenchDatabase.At(copy!, database.Time).NewContext();
        Assert.Equal(1, await old.Facts.CountAsync(f => f.JobId == job, Cancel));
        Assert.NotEmpty(await old.Database.GetPendingMigrationsAsync(Cancel));
    }

    [Fact]
    public async Task PrepareAsync_CopyOfThatSecondIsThereAlready_MakesAnotherBesideIt()
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(DatabaseKind.Sqlite);
        await FirstProgram.MakeAsync(database);
        await File.WriteAllTextAsync($"{database.Address}.before-20260301-080000", "kept", Cancel);
        Assert.Equal($"{database.Address}.before-20260301-080000-2", await database.Bench.PrepareAsync(Cancel));
        Assert.Equal("kept", await File.ReadAllTextAsync($"{database.Address}.before-20260301-080000", Cancel));
    }

    [Fact]
    public async Task PrepareAsync_MarkOfAStartThatWasKilled_IsTakenAway()
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(DatabaseKind.Sqlite);
        await FirstProgram.MakeAsync(database);
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Database.ExecuteSqlRawAsync("INSERT INTO \"__EFMigrationsLock\" VALUES (1, '2026-01-01 00:00:00.0000000+00:00')", Cancel);
        }

        Assert.NotNull(await database.Bench.PrepareAsync(Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task PrepareAsync_DatabaseOfANewerProgram_IsRefused(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Database.ExecuteSqlRawAsync("INSERT INTO \"__EFMigrationsHistory\" VALUES ('99991231000000_Future', '99')", Cancel);
        }

        await RefusesAsync(database.Another(), "a newer Shimwright has used this database (99991231000000_Future)");
    }

    [Fact]
    public async Task PrepareAsync_EmptyFile_BecomesADatabase()
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(DatabaseKind.Sqlite);
        Directory.CreateDirectory(Path.GetDirectoryName(database.Address)!);
        await File.WriteAllBytesAsync(database.Address, [], Cancel);
        Assert.Null(await database.Bench.PrepareAsync(Cancel));
        await database.Bench.StartJobAsync();
    }

    [Fact]
    public async Task PrepareAsync_FileThatIsNoDatabase_IsLeftAsItIs()
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(DatabaseKind.Sqlite);
        Directory.CreateDirectory(Path.GetDirectoryName(database.Address)!);
        string letter = string.Concat(Enumerable.Repeat("Dear customer, ", 100));
        await File.WriteAllTextAsync(database.Address, letter, Cancel);
        await RefusesAsync(database.Bench, $"{database.Address}: the file is no database; name another file with --db");
        Assert.Equal(letter, await File.ReadAllTextAsync(database.Address, Cancel));
    }

    [Fact]
    public async Task PrepareAsync_DatabaseOfAnotherProgram_IsLeftAsItIs()
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(DatabaseKind.Sqlite);
        Directory.CreateDirectory(Path.GetDirectoryName(database.Address)!);
        await using (SqliteConnection connection = new($"Data Source={database.Address};Pooling=False"))
        {
            await connection.OpenAsync(Cancel);
            await using SqliteCommand command = connection.CreateCommand();
            command.CommandText = "CREATE TABLE recipes (name TEXT)";
            await command.ExecuteNonQueryAsync(Cancel);
        }

        byte[] before = await File.ReadAllBytesAsync(database.Address, Cancel);
        await RefusesAsync(database.Bench, "made by another program");
        Assert.Equal(before, await File.ReadAllBytesAsync(database.Address, Cancel));
        Assert.Empty(Copies(database));
    }

    [Fact]
    public async Task PrepareAsync_PathThatIsAFolder_IsRefused()
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(DatabaseKind.Sqlite);
        Directory.CreateDirectory(database.Address);
        await RefusesAsync(database.Bench, $"{database.Address}: this is a folder; name a file in a folder that you may write to with --db");
    }

    [Fact]
    public async Task PrepareAsync_FolderThatCannotBeMade_IsRefused()
    {
        await using TestDatabase database = await TestDatabase.EmptyAsync(DatabaseKind.Sqlite);
        string file = Path.GetDirectoryName(database.Address)!;
        await File.WriteAllTextAsync(file, "a file where a folder should be", Cancel);
        await RefusesAsync(database.Bench, "name a file in a folder that you may write to with --db");
    }

    [Fact]
    public async Task PrepareAsync_DamagedFile_IsRefused()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await database.Bench.StartJobAsync();
        SqliteConnection.ClearAllPools();
        await using (FileStream stream = new(database.Address, FileMode.Open))
        {
            stream.Seek(100, SeekOrigin.Begin);
            stream.Write(new byte[4000]);
        }

        File.Delete(database.Address + "-wal");
        await RefusesAsync(database.Bench, "start from a copy");
    }

    [Fact]
    [Trait("Needs", "PostgreSQL")]
    public async Task PrepareAsync_ServerWithoutTheDatabase_MakesIt()
    {
        await using TestDatabase database = await TestDatabase.NoneOnServerAsync();
        await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => Task.Run(() => database.Another().PrepareAsync(Cancel), Cancel)));
        await database.Bench.StartJobAsync();
    }

    [Fact]
    public async Task PrepareAsync_ServerThatDoesNotAnswer_SaysWhichAndWhatToLookAt()
    {
        BenchDatabase bench = BenchDatabase.At("Host=127.0.0.1;Port=1;Database=bench;Username=sam;Password=secret", TimeProvider.System);
        BenchDatabaseException e = await Assert.ThrowsAsync<BenchDatabaseException>(() => bench.PrepareAsync(Cancel));
        Assert.StartsWith("PostgreSQL database bench on 127.0.0.1: ", e.Message, StringComparison.Ordinal);
        Assert.Contains("see that the server runs", e.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", e.Message, StringComparison.Ordinal);
        Assert.False(await bench.AnswersAsync(Cancel));
    }

    private static string[] Copies(TestDatabase database) =>
        database.Bench.File is { } file ? Directory.GetFiles(Path.GetDirectoryName(file)!, "*.before-*") : [];

    private static async Task RefusesAsync(BenchDatabase bench, string words)
    {
        BenchDatabaseException e = await Assert.ThrowsAsync<BenchDatabaseException>(() => bench.PrepareAsync(Cancel));
        Assert.StartsWith(bench.File ?? bench.Description, e.Message, StringComparison.Ordinal);
        Assert.True(e.Message.Contains(words, StringComparison.Ordinal), e.Message);
    }
}
