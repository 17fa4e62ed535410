using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Facts;
using Shimwright.Storage.Database;
using Shimwright.Storage.Due;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Due;

/// <summary>A hire fleet of one card: so many engines that not every one is asked each time.</summary>
public class ManyEnginesTests
{
    private const int Engines = 3 * CardPool.MostEngines;

    /// <summary>The law that the rates are drawn from, mm an hour; those of engines that came later are greater, so that the first ones alone would say too little.</summary>
    private const double Mean = 0.001, Spread = 0.0003, Later = 0.0009;

    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_CardOfManyEngines_HasTheRatesOfAllOfThem(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync();
        StoredEngine stored = (await database.Bench.Engines.FindAsync(engine, Cancel))!;
        await database.Bench.SaveAsync(await database.Bench.WorkedJobAsync(engine), new JobClosed(119, "", "", ""));
        List<RateEvidence> all = [];
        var random = new Random(20261201);
        await using (BenchContext context = database.Bench.NewContext())
        {
            for (int i = 0; i < Engines; i++)
            {
                RateEvidence[] valves = [Drawn(i), Drawn(i)];
                all.AddRange(valves);
                string text = JsonSerializer.Serialize(valves.SelectMany(v => new[] { v.Rate, v.Uncertainty }));
                Guid id = new(i + 1, 0, 0, new byte[8]);
                context.Engines.Add(new() { Id = id, CardId = stored.CardId, Name = $"Hire {i}", Search = $"hire {i}" });
                context.Forecasts.Add(new() { EngineId = id, Checks = 3, IntakeEvidence = text, ExhaustEvidence = "[]" });
            }

            await context.SaveChangesAsync(Cancel);
        }

        Assert.NotNull(await database.Bench.Due.FindAsync(engine, Cancel));
        await using BenchContext kept = database.Bench.NewContext();
        CardRatesRow rates = await kept.CardRates.SingleAsync(Cancel);
        RateDistribution whole = PooledRates.Fit(all);
        // Five standard errors of a thousand rates: of the mean, and of their spread.
        Assert.Equal(whole.Mean, rates.IntakeMean!.Value, 5 * whole.StandardDeviation / Math.Sqrt(2 * CardPool.MostEngines));
        Assert.Equal(whole.StandardDeviation, rates.IntakeSpread!.Value, 5 * whole.StandardDeviation / Math.Sqrt(4 * CardPool.MostEngines));
        Assert.Null(rates.ExhaustMean);

        RateEvidence Drawn(int i)
        {
            double normal = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            return new(Mean + (Later * i / Engines) + (Spread * normal), Spread / 3);
        }
    }

    /// <summary>Engines that wear the faster the later they came, worked out a few at a time, with fewer of them heard than there are.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task KeepFreshAsync_CardOfManyEngines_ComesToRest(DatabaseKind kind)
    {
        const int Fleet = 24;
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid first = await database.Bench.AddEngineAsync();
        StoredEngine stored = (await database.Bench.Engines.FindAsync(first, Cancel))!;
        for (int i = 0; i < Fleet; i++)
        {
            Guid engine = Guid.CreateVersion7(DateTimeOffset.UnixEpoch.AddHours(i));
            await database.Bench.Engines.AddSharingAsync(engine, $"Hire {i}", stored.CardId, Cancel);
            for (int check = 0; check < 3; check++)
            {
                double clock = 30 + (stored.Card.Wear!.ToUsual().Interval * check), gap = 0.22 - (0.004 * i * check);
                Guid job = await database.Bench.Jobs.StartAsync(engine, Setup(clock), [], JobPast.OfBench, Guid.NewGuid(), "phone", Cancel);
                await database.Bench.SaveAsync(
                    job,
                    [.. new[] { "I1", "I2", "E1", "E2" }.Select(v => new ClearanceRead(SheetPart.Check, v, gap, 0.003)), new JobClosed(clock, "", "", "")]);
            }
        }

        DueStore due = new(database.Bench.NewContext, new(), database.Bench.Settings, TimeProvider.System) { AtATime = 4, MostTeachers = 6 };
        Turns turns = new();
        await due.KeepFreshAsync(turns, Cancel);
        Assert.Equal(0, await due.RefreshStaleAsync(0, Cancel));
        // Each engine takes two turns; all may have to be worked out once more when the first rates are known, and some when those of the drawn ones are.
        Assert.InRange(turns.Taken, 2 * Fleet, 3 * 2 * Fleet);
        await using BenchContext context = database.Bench.NewContext();
        Assert.NotNull((await context.CardRates.SingleAsync(Cancel)).IntakeMean);
    }

    private sealed class Turns : IPace
    {
        private int _taken;

        public int Taken => _taken;

        public int AtOnce => 2;

        public ValueTask<T> DoAsync<T>(Func<T> work, CancellationToken cancel)
        {
            Interlocked.Increment(ref _taken);
            return ValueTask.FromResult(work());
        }
    }
}
