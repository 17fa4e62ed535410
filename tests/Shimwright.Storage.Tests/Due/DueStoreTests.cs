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
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.Due;

public class DueStoreTests
{
    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_ClosedJob_IsTheForecastOfItsFile(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await CheckedEngineAsync(database, "Hire bike 7", 118);
        KeptForecast kept = (await database.Bench.Due.FindAsync(engine, Cancel))!;
        EngineOutlook outlook = EngineOutlook.Of(Card(), await database.Bench.Due.PastAsync(engine, Cancel), new BenchSettings(), null)!;
        ForecastResult result = ForecastResult.Of(outlook.Job);
        Assert.Equal(result.CheckBy, kept.CheckBy!.Value, 1e-6);
        Assert.Equal((118.0, 1, UsageSource.Unknown, null), (kept.Clock, kept.Checks, kept.Usage.Source, kept.DueAt));
        Assert.Equal(118, kept.Curve[0].Clock);
        Assert.True(kept.Curve[0].Risk < kept.Curve[^1].Risk);
    }

    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_AfterEachChange_IsWorkedOutAgain(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await CheckedEngineAsync(database, "Hire bike 7", 118);
        double before = (await database.Bench.Due.FindAsync(engine, Cancel))!.CheckBy!.Value;
        Assert.Equal(0, await database.Bench.Due.RefreshStaleAsync(10, Cancel));

        StoredEngine stored = (await database.Bench.Engines.FindAsync(engine, Cancel))!;
        await database.Bench.Engines.SaveAsync((engine, stored.Version, stored.CardVersion), "Hire bike 7", CardWith(0.06), stored.Details, "", Cancel);
        double faster = (await database.Bench.Due.FindAsync(engine, Cancel))!.CheckBy!.Value;
        Assert.True(faster < before);

        await database.Bench.Settings.SaveAsync(new BenchSettings { Risk = 0.4 }, 0, "phone", Cancel);
        Assert.True((await database.Bench.Due.FindAsync(engine, Cancel))!.CheckBy > faster);

        await database.Bench.Due.StateUsageAsync(engine, 5, Cancel);
        KeptForecast stated = (await database.Bench.Due.FindAsync(engine, Cancel))!;
        Assert.Equal(new EngineUsage(5, UsageSource.Stated), stated.Usage);
        Assert.Equal(stated.Usage.DayOf(stated.CheckBy!.Value, stated.Last), stated.DueAt);

        Guid job = (await database.Bench.Jobs.OfEngineAsync(engine, Cancel)).Single().Id;
        await database.Bench.SaveAsync(job, new JobReopened());
        Assert.Null(await database.Bench.Due.FindAsync(engine, Cancel));
        await database.Bench.SaveAsync(job, new JobClosed(121, "", "", ""));
        Assert.Equal(121, (await database.Bench.Due.FindAsync(engine, Cancel))!.Last.Clock);
    }

    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_EnginesOfEveryKind_StandByWhenTheyAreDue(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid late = await CheckedEngineAsync(database, "Late", 118);
        Guid soon = await CheckedEngineAsync(database, "Soon", 118);
        await CheckedEngineAsync(database, "Clock only", 118);
        await database.Bench.AddEngineAsync("Never checked");
        await database.Bench.Due.StateUsageAsync(late, 1, Cancel);
        await database.Bench.Due.StateUsageAsync(soon, 40, Cancel);
        Assert.Equal(1, await database.Bench.Due.RefreshStaleAsync(2, Cancel));
        Assert.Equal(0, await database.Bench.Due.RefreshStaleAsync(2, Cancel));
        Assert.Equal(["Soon", "Late", "Clock only", "Never checked"], (await database.Bench.Due.ListAsync(null, 0, 10, Cancel)).Select(e => e.Name));
        Assert.Equal(["Late", "Clock only"], (await database.Bench.Due.ListAsync("l", 0, 2, Cancel)).Select(e => e.Name));
        Assert.Equal(["Soon", "Late"], (await database.Bench.Due.DatedAsync(10, Cancel)).Select(e => e.Name));
    }

    /// <summary>Four engines of one card that lose 0.05 an interval where the card says 0.015: they teach one another.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task OutlookAsync_FleetOfOneCard_TakesTheRatesThatItHasTaught(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid first = await database.Bench.AddEngineAsync("Hire bike 1");
        StoredEngine stored = (await database.Bench.Engines.FindAsync(first, Cancel))!;
        List<Guid> engines = [first];
        for (int i = 2; i <= 4; i++)
        {
            engines.Add(Guid.NewGuid());
            await database.Bench.Engines.AddSharingAsync(engines[^1], $"Hire bike {i}", stored.CardId, Cancel);
        }

        UsualWear card = stored.Card.Wear!.ToUsual();
        foreach ((int i, Guid engine) in engines.Index())
        {
            for (int check = 0; check < 4; check++)
            {
                await CloseCheckAsync(database, engine, 30 + (card.Interval * check), 0.25 - (0.02 * i) - (0.05 * check));
            }
        }

        await database.Bench.Due.RefreshStaleAsync(10, Cancel);
        StoredOutlook outlook = (await database.Bench.Due.OutlookAsync(first, Cancel))!;
        Assert.True(outlook.IsPooled);
        RateDistribution? expected = PooledRates.Of(
            await Task.WhenAll(engines.Select(async e => (await database.Bench.Due.OutlookAsync(e, Cancel))!.Outlook.Job.AllChecks)), ValveSide.Intake, card);
        Assert.Equal(expected!.Mean, outlook.Usual.RateOf(ValveSide.Intake).Mean, 1e-9);
        Assert.Equal(expected.StandardDeviation, outlook.Usual.RateOf(ValveSide.Intake).StandardDeviation, 1e-9);
        Assert.InRange(outlook.Usual.RateOf(ValveSide.Intake).Mean * card.Interval, 0.045, 0.055);
        Assert.Equal(0, await database.Bench.Due.RefreshStaleAsync(10, Cancel));
    }

    [Theory]
    [OnEachDatabase]
    public async Task FindAsync_JobsThreeWeeksApart_TellHowMuchItIsUsed(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync();
        await CloseCheckAsync(database, engine, 100, 0.14);
        database.Time.Pass(TimeSpan.FromDays(21));
        await CloseCheckAsync(database, engine, 130, 0.13);
        KeptForecast kept = (await database.Bench.Due.FindAsync(engine, Cancel))!;
        Assert.Equal(UsageSource.Estimated, kept.Usage.Source);
        Assert.Equal(10, kept.Usage.PerWeek!.Value, 1e-9);
        Assert.Equal(kept.Usage.DayOf(kept.CheckBy!.Value, kept.Last), kept.DueAt);
        Assert.Equal(DateTimeKind.Utc, kept.DueAt!.Value.Kind);
    }

    [Theory]
    [OnEachDatabase]
    public async Task PastAsync_SecondRound_IsKnownAsOne(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await database.Bench.AddEngineAsync();
        Guid first = await database.Bench.WorkedJobAsync(engine);
        await database.Bench.SaveAsync(first, new JobClosed(119, "", "", ""));
        ParsedSetup round = SecondRound.Of((await database.Bench.FindJobAsync(first)).Sheet);
        Guid second = await database.Bench.Jobs.StartAsync(engine, round.Setup!, round.Facts, JobPast.SecondRoundOf(first), Guid.NewGuid(), "phone", Cancel);
        await database.Bench.SaveAsync(second, new JobClosed(119, "", "", ""));
        IReadOnlyList<PastJob> past = await database.Bench.Due.PastAsync(engine, Cancel);
        Assert.Equal([(first, PastOrigin.File, null), (second, PastOrigin.SecondRound, (Guid?)first)], past.Select(p => (p.Id, p.Origin, p.Follows)));
        IReadOnlyList<ScoredRecord> records = await database.Bench.Due.RecordsAsync(10, Cancel);
        Assert.Equal(1, records.Count(r => r.IsSecondRound));
    }

    [Fact]
    public async Task StateUsageAsync_NoUsage_IsRefusedByAnException()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        Guid engine = await database.Bench.AddEngineAsync();
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => database.Bench.Due.StateUsageAsync(engine, 0, Cancel));
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => database.Bench.Due.StateUsageAsync(engine, double.NaN, Cancel));
        Assert.False(await database.Bench.Due.StateUsageAsync(Guid.NewGuid(), 5, Cancel));
    }

    private static Shimwright.Jobs.Cards.EngineCard CardWith(double loss)
    {
        var card = (System.Text.Json.Nodes.JsonObject)System.Text.Json.Nodes.JsonNode.Parse(Card().Json)!;
        card["wear"]!["lossPerInterval"] = loss;
        return Shimwright.Jobs.Cards.EngineCard.Read(card).Card!;
    }

    private static async Task<Guid> CheckedEngineAsync(TestDatabase database, string name, double clock)
    {
        Guid engine = await database.Bench.AddEngineAsync(name);
        await CloseCheckAsync(database, engine, clock, 0.14);
        return engine;
    }

    /// <summary>A check of all four valves, the intakes at a clearance, closed without work.</summary>
    private static async Task CloseCheckAsync(TestDatabase database, Guid engine, double clock, double intake)
    {
        Guid job = await database.Bench.Jobs.StartAsync(engine, Setup(clock), [], JobPast.OfBench, Guid.NewGuid(), "phone", Cancel);
        await database.Bench.SaveAsync(job,
            new ClearanceRead(SheetPart.Check, "I1", intake, 0.003), new ClearanceRead(SheetPart.Check, "I2", intake + 0.002, 0.003),
            new ClearanceRead(SheetPart.Check, "E1", 0.205, 0.003), new ClearanceRead(SheetPart.Check, "E2", 0.207, 0.003),
            new JobClosed(clock, "", "", ""));
    }
}
