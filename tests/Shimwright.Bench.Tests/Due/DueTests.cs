using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Due;

public class DueTests
{
    [Theory]
    [OnEachBench]
    public async Task FindAsync_ClosedJob_IsTheForecastOfItsFile(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await CheckedEngineAsync(test, "Flood pump 7", 118);
        KeptForecast kept = (await test.Bench.Due.FindAsync(engine, Cancel))!;
        EngineOutlook outlook = EngineOutlook.Of(Card(), await test.Bench.Due.PastAsync(engine, Cancel), new BenchSettings(), null)!;
        ForecastResult result = ForecastResult.Of(outlook.Job);
        Assert.Equal(result.CheckBy, kept.CheckBy!.Value, 1e-6);
        Assert.Equal((118.0, 1, UsageSource.Unknown, null), (kept.Clock, kept.Checks, kept.Usage.Source, kept.DueAt));
        Assert.Equal(118, kept.Curve[0].Clock);
        Assert.True(kept.Curve[0].Risk < kept.Curve[^1].Risk);
    }

    [Theory]
    [OnEachBench]
    public async Task FindAsync_AfterEachChange_IsWorkedOutAgain(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await CheckedEngineAsync(test, "Flood pump 7", 118);
        double before = (await test.Bench.Due.FindAsync(engine, Cancel))!.CheckBy!.Value;
        Assert.Equal(0, await test.Bench.Due.RefreshStaleAsync(10, Cancel));

        StoredEngine stored = (await test.Bench.Engines.FindAsync(engine, Cancel))!;
        await test.Bench.Engines.SaveAsync((engine, stored.Version, stored.CardVersion), "Flood pump 7", CardWith(0.06), stored.Details, "", cancel: Cancel);
        double faster = (await test.Bench.Due.FindAsync(engine, Cancel))!.CheckBy!.Value;
        Assert.True(faster < before);

        await test.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.4 }, 0, "phone", Cancel);
        Assert.True((await test.Bench.Due.FindAsync(engine, Cancel))!.CheckBy > faster);

        await test.Bench.Due.StateUsageAsync(engine, 5, Cancel);
        KeptForecast stated = (await test.Bench.Due.FindAsync(engine, Cancel))!;
        Assert.Equal(new EngineUsage(5, UsageSource.Stated), stated.Usage);
        Assert.Equal(stated.Usage.DayOf(stated.CheckBy!.Value, stated.Last), stated.DueAt);

        Guid job = (await test.Bench.Jobs.OfEngineAsync(engine, Cancel)).Single().Id;
        await test.Bench.SaveAsync(job, new JobReopened());
        Assert.Null(await test.Bench.Due.FindAsync(engine, Cancel));
        await test.Bench.SaveAsync(job, new JobClosed(121, "", "", ""));
        Assert.Equal(121, (await test.Bench.Due.FindAsync(engine, Cancel))!.Last.Clock);
    }

    [Theory]
    [OnEachBench]
    public async Task ListAsync_EnginesOfEveryKind_StandByWhenTheyAreDue(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid late = await CheckedEngineAsync(test, "Late", 118);
        Guid soon = await CheckedEngineAsync(test, "Soon", 118);
        await CheckedEngineAsync(test, "Clock only", 118);
        await test.Bench.AddEngineAsync("Never checked");
        await test.Bench.Due.StateUsageAsync(late, 1, Cancel);
        await test.Bench.Due.StateUsageAsync(soon, 40, Cancel);
        Assert.Equal(1, await test.Bench.Due.RefreshStaleAsync(2, Cancel));
        Assert.Equal(0, await test.Bench.Due.RefreshStaleAsync(2, Cancel));
        Assert.Equal(["Soon", "Late", "Clock only", "Never checked"], (await test.Bench.Due.ListAsync(null, 0, 10, Cancel)).Select(e => e.Name));
        Assert.Equal(["Late", "Clock only"], (await test.Bench.Due.ListAsync("l", 0, 2, Cancel)).Select(e => e.Name));
        // A page begins anywhere, and where those with a day end the others go on.
        Assert.Equal(["Late", "Clock only"], (await test.Bench.Due.ListAsync(null, 1, 2, Cancel)).Select(e => e.Name));
        Assert.Equal(["Clock only", "Never checked"], (await test.Bench.Due.ListAsync(null, 2, 2, Cancel)).Select(e => e.Name));
        Assert.Equal(["Never checked"], (await test.Bench.Due.ListAsync(null, 3, 2, Cancel)).Select(e => e.Name));
        Assert.Empty(await test.Bench.Due.ListAsync(null, 4, 2, Cancel));
        Assert.Equal(["Soon", "Late"], (await test.Bench.Due.DatedAsync(10, Cancel)).Select(e => e.Name));
    }

    /// <summary>Four engines of one card that lose 0.05 an interval where the card says 0.015: they teach one another.</summary>
    [Theory]
    [OnEachBench]
    public async Task OutlookAsync_FleetOfOneCard_TakesTheRatesThatItHasTaught(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        (IReadOnlyList<Guid> engines, UsualWear card) = await FleetAsync(test);
        Guid first = engines[0];
        await test.Bench.Due.RefreshStaleAsync(10, Cancel);
        StoredOutlook outlook = (await test.Bench.Due.OutlookAsync(first, Cancel))!;
        Assert.True(outlook.IsPooled);
        RateDistribution? expected = PooledRates.Of(
            await Task.WhenAll(engines.Select(async e => (await test.Bench.Due.OutlookAsync(e, Cancel))!.Outlook.Job.AllChecks)), ValveSide.Intake, card);
        Assert.Equal(expected!.Mean, outlook.Usual.RateOf(ValveSide.Intake).Mean, 1e-9);
        Assert.Equal(expected.StandardDeviation, outlook.Usual.RateOf(ValveSide.Intake).StandardDeviation, 1e-9);
        Assert.InRange(outlook.Usual.RateOf(ValveSide.Intake).Mean * card.Interval, 0.045, 0.055);
        Assert.Equal(0, await test.Bench.Due.RefreshStaleAsync(10, Cancel));

        // One is checked again and worked out alone: what the others have taught stands.
        await CloseCheckAsync(test, first, 30 + (card.Interval * 4), 0.30 - (0.05 * 4));
        Assert.NotNull(await test.Bench.Due.FindAsync(first, Cancel));
        StoredOutlook after = (await test.Bench.Due.OutlookAsync(first, Cancel))!;
        Assert.True(after.IsPooled);
        Assert.InRange(after.Usual.RateOf(ValveSide.Intake).Mean * card.Interval, 0.045, 0.055);
        Assert.Equal(expected.StandardDeviation, after.Usual.RateOf(ValveSide.Intake).StandardDeviation, 0.1 * expected.StandardDeviation);
    }

    /// <summary>In the background, several at once, the forecasts are the same; and who asks for a page then waits for few, not for all.</summary>
    [Theory]
    [OnEachBench]
    public async Task KeepFreshAsync_FleetThatIsStaleAtOnce_IsWorkedOutAsByHand(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        await FleetAsync(test);
        Assert.Equal(0, await test.Bench.Due.RefreshStaleAsync(10, Cancel));
        IReadOnlyList<DueEngine> before = await test.Bench.Due.ListAsync(null, 0, 10, Cancel);
        Assert.Equal(4, before.Count(e => e.Forecast is { Curve.Count: > 0 }));

        await test.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.4 }, 0, "phone", Cancel);
        await test.Bench.Due.KeepFreshAsync(new FourAtOnce(), Cancel);
        Assert.All(await test.Bench.Due.ListAsync(null, 0, 10, Cancel), e => Assert.Equal(0.4, e.Forecast!.Risk));
        await test.Bench.Settings.SaveAsync(new BenchSettings(), 1, "phone", Cancel);
        Assert.Equal(4, await test.Bench.Due.RefreshStaleAsync(3, Cancel));
        Assert.Equal(4, await test.Bench.Due.RefreshStaleAsync(3, Cancel));

        FourAtOnce pace = new();
        await test.Bench.Due.KeepFreshAsync(pace, Cancel);
        Assert.True(pace.Turns >= 4);
        Assert.Equivalent(before, await test.Bench.Due.ListAsync(null, 0, 10, Cancel), strict: true);

        await test.Bench.Due.StateUsageAsync(before[0].Id, 5, Cancel);
        Assert.Equal(0, await test.Bench.Due.RefreshStaleAsync(3, Cancel));
    }

    /// <summary>Out of its limits at the check, and nobody has said how much it is used: it is due since that day.</summary>
    [Theory]
    [OnEachBench]
    public async Task FindAsync_EngineThatIsDueAtItsCheck_IsDueOnThatDay(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync();
        await CloseCheckAsync(test, engine, 118, 0.05);
        KeptForecast kept = (await test.Bench.Due.FindAsync(engine, Cancel))!;
        Assert.Equal((118.0, UsageSource.Unknown), (kept.CheckBy, kept.Usage.Source));
        Assert.Equal(kept.Last.At, kept.DueAt);
        Assert.Single(await test.Bench.Due.DatedAsync(10, Cancel));
    }

    [Theory]
    [OnEachBench]
    public async Task FindAsync_JobsThreeWeeksApart_TellHowMuchItIsUsed(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync();
        await CloseCheckAsync(test, engine, 100, 0.19);
        test.Time.Pass(TimeSpan.FromDays(21));
        await CloseCheckAsync(test, engine, 130, 0.18);
        KeptForecast kept = (await test.Bench.Due.FindAsync(engine, Cancel))!;
        Assert.Equal(UsageSource.Estimated, kept.Usage.Source);
        Assert.Equal(10, kept.Usage.PerWeek!.Value, 1e-9);
        Assert.Equal(kept.Usage.DayOf(kept.CheckBy!.Value, kept.Last), kept.DueAt);
        Assert.Equal(DateTimeKind.Utc, kept.DueAt!.Value.Kind);
    }

    [Theory]
    [OnEachBench]
    public async Task PastAsync_SecondRound_IsKnownAsOne(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync();
        Guid first = await test.Bench.WorkedJobAsync(engine);
        await test.Bench.SaveAsync(first, new JobClosed(119, "", "", ""));
        ParsedSetup round = SecondRound.Of((await test.Bench.FindJobAsync(first)).Sheet);
        Guid second = await test.Bench.Jobs.StartAsync(engine, round.Setup!, round.Facts, JobPast.SecondRoundOf(first), Guid.NewGuid(), "phone", Cancel);
        await test.Bench.SaveAsync(second, new JobClosed(119, "", "", ""));
        IReadOnlyList<PastJob> past = await test.Bench.Due.PastAsync(engine, Cancel);
        Assert.Equal([(first, PastOrigin.File, null), (second, PastOrigin.SecondRound, (Guid?)first)], past.Select(p => (p.Id, p.Origin, p.Follows)));
        IReadOnlyList<ScoredRecord> records = await test.Bench.Due.RecordsAsync(10, Cancel);
        Assert.Equal(1, records.Count(r => r.IsSecondRound));
    }

    [Theory]
    [OnEachBench]
    public async Task StateUsageAsync_NoUsage_IsRefusedByAnException(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await test.Bench.AddEngineAsync();
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => test.Bench.Due.StateUsageAsync(engine, 0, Cancel));
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => test.Bench.Due.StateUsageAsync(engine, double.NaN, Cancel));
        Assert.False(await test.Bench.Due.StateUsageAsync(Guid.NewGuid(), 5, Cancel));
    }

    private static Shimwright.Jobs.Cards.EngineCard CardWith(double loss)
    {
        var card = (System.Text.Json.Nodes.JsonObject)System.Text.Json.Nodes.JsonNode.Parse(Card().Json)!;
        card["wear"]!["lossPerInterval"] = loss;
        return Shimwright.Jobs.Cards.EngineCard.Read(card).Card!;
    }

    private static async Task<Guid> CheckedEngineAsync(TestBench test, string name, double clock)
    {
        Guid engine = await test.Bench.AddEngineAsync(name);
        await CloseCheckAsync(test, engine, clock, 0.19);
        return engine;
    }

    /// <summary>A check of all four valves, the intakes at a clearance, closed without work.</summary>
    private static async Task CloseCheckAsync(TestBench test, Guid engine, double clock, double intake)
    {
        Guid job = await test.Bench.Jobs.StartAsync(engine, Setup(clock), [], JobPast.OfBench, Guid.NewGuid(), "phone", Cancel);
        await test.Bench.SaveAsync(job,
            new ClearanceRead(SheetPart.Check, "I1", intake, 0.003), new ClearanceRead(SheetPart.Check, "I2", intake + 0.002, 0.003),
            new ClearanceRead(SheetPart.Check, "E1", 0.255, 0.003), new ClearanceRead(SheetPart.Check, "E2", 0.257, 0.003),
            new JobClosed(clock, "", "", ""));
    }

    /// <summary>Four engines of one card that lose 0.05 an interval.</summary>
    private static async Task<(IReadOnlyList<Guid> Engines, UsualWear Card)> FleetAsync(TestBench test)
    {
        Guid first = await test.Bench.AddEngineAsync("Flood pump 1");
        StoredEngine stored = (await test.Bench.Engines.FindAsync(first, Cancel))!;
        List<Guid> engines = [first];
        for (int i = 2; i <= 4; i++)
        {
            engines.Add(Guid.NewGuid());
            await test.Bench.Engines.AddSharingAsync(engines[^1], $"Flood pump {i}", stored.CardId, Cancel);
        }

        UsualWear card = stored.Card.Wear!.ToUsual();
        foreach ((int i, Guid engine) in engines.Index())
        {
            for (int check = 0; check < 4; check++)
            {
                await CloseCheckAsync(test, engine, 30 + (card.Interval * check), 0.30 - (0.02 * i) - (0.05 * check));
            }
        }

        return (engines, card);
    }

    private sealed class FourAtOnce : IPace
    {
        private int _turns;

        public int Turns => _turns;

        public int AtOnce => 4;

        public async ValueTask<T> DoAsync<T>(Func<T> work, CancellationToken cancel)
        {
            Interlocked.Increment(ref _turns);
            await Task.Yield();
            return work();
        }
    }
}
