using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Due;

/// <summary>Somebody looks at an engine while the background works through many: the same is shown as will be kept, and nothing is written for it.</summary>
public class LookingTests
{
    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_WhileManyAreWorkedOut_ShowsWhatWillBeKeptAndWritesNothing(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        IDue due = database.Bench.Due;
        Guid engine = await database.Bench.AddEngineAsync();
        Guid job = await database.Bench.Jobs.StartAsync(engine, Setup(118), [], JobPast.OfBench, Guid.NewGuid(), "phone", Cancel);
        await database.Bench.SaveAsync(job, [.. new[] { "I1", "I2", "E1", "E2" }.Select(v => new ClearanceRead(SheetPart.Check, v, v[0] == 'I' ? 0.16 : 0.23, 0.003)), new JobClosed(118, "", "", "")]);
        Guid never = await database.Bench.AddEngineAsync("Never checked");
        double byBefore = (await due.FindAsync(engine, Cancel))!.CheckBy!.Value;
        await database.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.4 }, 0, "phone", Cancel);

        HeldPace pace = new();
        Task keeping = due.KeepFreshAsync(pace, Cancel);
        await pace.Reached;
        KeptForecast looked = (await due.FindAsync(engine, Cancel))!;
        StoredOutlook outlook = (await due.OutlookAsync(engine, Cancel))!;
        Assert.Null(await due.FindAsync(never, Cancel));
        Assert.Equal(0.4, looked.Risk);
        Assert.True(looked.CheckBy > byBefore);
        Assert.Equal(0.4, outlook.Outlook.Job.Risk);
        Assert.NotEqual(0.4, await KeptRiskAsync());

        pace.Release();
        await keeping;
        Assert.Equal(0.4, await KeptRiskAsync());
        Assert.Equivalent(await due.FindAsync(engine, Cancel), looked, strict: true);

        async Task<double> KeptRiskAsync()
        {
            await using BenchContext context = database.Bench.NewContext();
            return (await context.Forecasts.SingleAsync(f => f.EngineId == engine, Cancel)).Risk;
        }
    }

    /// <summary>Lets nothing be worked out until it is released.</summary>
    private sealed class HeldPace : IPace
    {
        private readonly TaskCompletionSource _reached = new(), _released = new();

        public Task Reached => _reached.Task;

        public int AtOnce => 2;

        public void Release() => _released.SetResult();

        public async ValueTask<T> DoAsync<T>(Func<T> work, CancellationToken cancel)
        {
            _reached.TrySetResult();
            await _released.Task.WaitAsync(cancel);
            return work();
        }
    }
}
