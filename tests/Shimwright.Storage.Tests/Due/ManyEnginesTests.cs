using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Facts;
using Shimwright.Storage.Database;
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
}
