using System.Reflection;
using Shimwright.Bench.InMemory;
using Shimwright.Testing;
using Shimwright.Testing.Benches;
using Xunit.Sdk;
using Xunit.v3;

namespace Shimwright.Bench.Tests;

/// <summary>The benches that there are.</summary>
public enum BenchKind
{
    Memory,

    /// <summary>In memory, and kept line by line where only keys and text are known.</summary>
    Lines,
    Sqlite,
    Postgres,
}

/// <summary>Asks every bench the same, in a quick run those that need no server.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class OnEachBenchAttribute : DataAttribute
{
    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker) =>
        ValueTask.FromResult<IReadOnlyCollection<ITheoryDataRow>>(
            [.. Enum.GetValues<BenchKind>().Where(k => k != BenchKind.Postgres || !Effort.IsQuick).Select(k => new TheoryDataRow<BenchKind>(k))]);

    public override bool SupportsDiscoveryEnumeration() => true;
}

/// <summary>An empty bench of a test's own, gone when the test is done.</summary>
internal sealed class TestBench : IAsyncDisposable
{
    private readonly TestDatabase? _database;
    private readonly LineStore? _lines;

    private TestBench(IBench bench, ManualTime time, TestDatabase? database, LineStore? lines = null)
    {
        _database = database;
        _lines = lines;
        Time = time;
        Bench = bench;
    }

    public IBench Bench { get; }

    public ManualTime Time { get; }

    /// <summary>Another program's view of the same bench; one in memory is only ever looked at by its own.</summary>
    public IBench Another() => _database?.Another() ?? Bench;

    public static async Task<TestBench> OfAsync(BenchKind kind)
    {
        if (kind == BenchKind.Memory)
        {
            var time = new ManualTime();
            return new(new MemoryBench(time), time, null);
        }

        if (kind == BenchKind.Lines)
        {
            var time = new ManualTime();
            LineStore store = new(time);
            return new(store.Bench, time, null, store);
        }

        TestDatabase database = await TestDatabase.PreparedAsync(kind == BenchKind.Sqlite ? DatabaseKind.Sqlite : DatabaseKind.Postgres);
        return new(database.Bench, database.Time, database);
    }

    /// <summary>A bench that was made elsewhere, with a clock that nobody else looks at.</summary>
    public static TestBench Of(IBench bench) => new(bench, new ManualTime(), null);

    public ValueTask DisposeAsync()
    {
        // Whatever a test has done, it lies in the store as it is held.
        _lines?.AssertKept();
        return _database?.DisposeAsync() ?? ValueTask.CompletedTask;
    }
}
