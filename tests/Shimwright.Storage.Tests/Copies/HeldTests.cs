using Microsoft.Data.Sqlite;
using Shimwright.Jobs.Facts;
using Shimwright.Storage.Database;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Copies;

/// <summary>A bench that is served is looked after: its file, what lies beside it, and what is left when it is closed.</summary>
public class HeldTests
{
    [Fact]
    public async Task SaveAsync_FileWasTakenAway_IsNotAcknowledgedUntilItIsBack()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using IAsyncDisposable held = await database.Bench.HoldAsync(Cancel);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.SaveAsync(job, new JobNoted("kept"));

        string elsewhere = database.Address + ".elsewhere";
        File.Move(database.Address, elsewhere);
        await AssertRefusedAsync(() => database.Bench.SaveAsync(job, new JobNoted("into nothing")));
        await AssertRefusedAsync(() => database.Bench.Due.StateUsageAsync(Guid.NewGuid(), 3, Cancel));
        await AssertRefusedAsync(() => database.Bench.AnswersAsync(Cancel));

        File.Move(elsewhere, database.Address);
        await database.Bench.SaveAsync(job, new JobNoted("kept too"));
        Assert.True(await database.Bench.AnswersAsync(Cancel));
        // What was sent in between may be there: nobody was told that it is.
        Assert.Equal(["kept", "kept too"], (await database.Bench.FindJobAsync(job)).Sheet.Entries.Select(e => ((JobNoted)e.Fact).Text).Where(t => t != "into nothing"));
    }

    /// <summary>What two files under one name and one log come to SQLite leaves open: the bench writes to neither. The one that was taken away is whole where it lies.</summary>
    [Fact]
    public async Task SaveAsync_AnotherBenchInItsPlace_IsNotWrittenTo()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using IAsyncDisposable held = await database.Bench.HoldAsync(Cancel);
        Guid job = await database.Bench.StartJobAsync();
        // What lies only in the log is not in a file that is taken away without it.
        await database.Bench.TidyAsync(Cancel);
        string elsewhere = database.Address + ".elsewhere";
        File.Move(database.Address, elsewhere);
        await using TestDatabase other = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await other.Bench.StartJobAsync();
        await other.Bench.BackUpAsync(database.Address, replaces: false, cancel: Cancel);
        await AssertRefusedAsync(() => database.Bench.AddEngineAsync());
        await AssertHasJobAsync(elsewhere, job, database.Time);

        // Even by a connection that was opened on it and outlives it.
        await using SqliteConnection onOther = await SqliteFile.OpenAsync(database.Address, SqliteOpenMode.ReadWrite, Cancel);
        File.Move(elsewhere, database.Address, overwrite: true);
        using FileKeeper keeper = new(database.Address);
        await keeper.HoldAsync(Cancel);
        keeper.Check();
        Assert.Throws<BenchDatabaseException>(() => keeper.Check(onOther));
    }

    [Fact]
    public async Task SaveAsync_LogWasTakenAway_IsNotAcknowledged()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using IAsyncDisposable held = await database.Bench.HoldAsync(Cancel);
        Guid job = await database.Bench.StartJobAsync();
        File.Delete(database.Address + "-wal");
        // A connection that is new finds that its log is gone by itself, one that is not is told after its commit.
        Exception refused = await Assert.ThrowsAnyAsync<Exception>(() => database.Bench.SaveAsync(job, new JobNoted("into nothing")));
        Assert.NotNull(BenchDatabase.WhyAway(refused));
    }

    [Fact]
    public async Task HoldAsync_WhenItIsClosed_TheFileAloneIsTheWholeBench()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        Guid job;
        await using (await database.Bench.HoldAsync(Cancel))
        {
            job = await database.Bench.StartJobAsync();
        }

        await AssertHasJobAsync(database.Address, job, database.Time);
        Assert.False(new FileInfo(database.Address + "-wal") is { Exists: true, Length: > 0 });
    }

    [Fact]
    public async Task TidyAsync_WhileItIsServed_BringsTheFileUpToDate()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using IAsyncDisposable held = await database.Bench.HoldAsync(Cancel);
        Guid job = await database.Bench.StartJobAsync();
        await database.Bench.TidyAsync(Cancel);
        await AssertHasJobAsync(database.Address, job, database.Time);
    }

    [Fact]
    [Testing.Long]
    public async Task AnswersAsync_FileThatAnotherIsInTheMiddleOf_WaitsAndFails()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using SqliteConnection other = new($"Data Source={database.Address};Pooling=False");
        await other.OpenAsync(Cancel);
        await SqliteFile.RunAsync(other, "BEGIN IMMEDIATE", Cancel);
        // A file that nobody can write to: here since another program is in the middle of it.
        SqliteException e = await Assert.ThrowsAsync<SqliteException>(() => SqliteFile.TryToWriteAsync(database.Address, Cancel));
        Assert.Equal(5, e.SqliteErrorCode);
        await SqliteFile.RunAsync(other, "ROLLBACK", Cancel);
        long before = new FileInfo(database.Address + "-wal").Length;
        Assert.True(await database.Bench.AnswersAsync(Cancel));
        Assert.True(new FileInfo(database.Address + "-wal") is var log && log.Exists && log.Length >= before);
    }

    /// <summary>A copy of the file alone, without its log, has the job.</summary>
    private static async Task AssertHasJobAsync(string file, Guid job, TimeProvider time)
    {
        string copy = file + ".copy";
        File.Copy(file, copy);
        Assert.NotNull(await BenchDatabase.At(copy, time).Jobs.FindAsync(job, Cancel));
    }

    private static async Task AssertRefusedAsync(Func<Task> save)
    {
        // A connection that is opened anew finds by itself that there is no file.
        Exception refused = await Assert.ThrowsAnyAsync<Exception>(save);
        Assert.NotNull(BenchDatabase.WhyAway(refused));
    }
}
