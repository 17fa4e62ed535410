using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Due;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Due;

/// <summary>Somebody looks at an engine while the background works through many: the same is shown as will be kept, and nothing is written for it.</summary>
public class LookingTests
{
    /// <summary>One is being worked out from what it was when it was read: what is seen of it now is kept. The other is still ahead.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_WhileManyAreWorkedOut_ShowsWhatWillBeKeptAndWritesNothingForThoseAhead(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid[] engines = [await CheckedAsync(database, "Flood pump 1"), await CheckedAsync(database, "Flood pump 2")];
        Guid never = await database.Bench.AddEngineAsync("Never checked");
        DueStore due = new(database.Bench.NewContext, new(), database.Bench.Settings, TimeProvider.System) { AtATime = 1 };
        double byBefore = (await due.FindAsync(engines[0], Cancel))!.CheckBy!.Value;
        Assert.NotNull(await due.FindAsync(engines[1], Cancel));
        await database.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.4 }, 0, "phone", Cancel);

        HeldPace pace = new();
        Task keeping = due.KeepFreshAsync(pace, Cancel);
        await pace.Reached;
        KeptForecast[] looked = [(await due.FindAsync(engines[0], Cancel))!, (await due.FindAsync(engines[1], Cancel))!];
        Assert.Null(await due.FindAsync(never, Cancel));
        Assert.All(looked, l => Assert.Equal(0.4, l.Risk));
        Assert.All(looked, l => Assert.True(l.CheckBy > byBefore));
        foreach (Guid engine in engines)
        {
            Assert.Equal(0.4, (await due.OutlookAsync(engine, Cancel))!.Outlook.Job.Risk);
        }

        Assert.Equal(1, await KeptAsync());
        pace.Release();
        await keeping;
        Assert.Equal(2, await KeptAsync());
        Assert.Equivalent(await due.FindAsync(engines[0], Cancel), looked[0], strict: true);
        Assert.Equivalent(await due.FindAsync(engines[1], Cancel), looked[1], strict: true);

        async Task<int> KeptAsync()
        {
            await using BenchContext context = database.Bench.NewContext();
            return await context.Forecasts.CountAsync(f => f.Risk == 0.4, Cancel);
        }
    }

    private static async Task<Guid> CheckedAsync(TestDatabase database, string name)
    {
        Guid engine = await database.Bench.AddEngineAsync(name);
        Guid job = await database.Bench.Jobs.StartAsync(engine, Setup(118), [], JobPast.OfBench, Guid.NewGuid(), "phone", Cancel);
        await database.Bench.SaveAsync(job, [.. new[] { "I1", "I2", "E1", "E2" }.Select(v => new ClearanceRead(SheetPart.Check, v, v[0] == 'I' ? 0.16 : 0.23, 0.003)), new JobClosed(118, "", "", "")]);
        return engine;
    }

    /// <summary>Lets nothing be worked out until it is released.</summary>
    private sealed class HeldPace : IPace
    {
        private readonly TaskCompletionSource _reached = new(), _released = new();

        public Task Reached => _reached.Task;

        public int AtOnce => 1;

        public void Release() => _released.SetResult();

        public async ValueTask<T> DoAsync<T>(Func<T> work, CancellationToken cancel)
        {
            _reached.TrySetResult();
            await _released.Task.WaitAsync(cancel);
            return work();
        }
    }
}
