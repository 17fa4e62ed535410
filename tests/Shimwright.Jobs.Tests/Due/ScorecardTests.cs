using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Closing;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Due;

public class ScorecardTests
{
    /// <summary>A whole job on the sheet: what the scorecard shows is what the record has.</summary>
    [Fact]
    public void Of_WholeJob_HasItsFittingAndItsPromise()
    {
        Ledger ledger = Ledger.ShimsFitted();
        ledger.Add(new ClearanceRead(SheetPart.Recheck, "E1", 0.225, 0.003));
        ledger.Add(new JobClosed(120, "", "", ""));
        JobRecord record = JobRecord.Read(RecordOfJob.Of(ledger.Sheet).ToJson());
        Scorecard card = Scorecard.Of([new(record, false)]);
        ScoredFitting fitting = Assert.Single(card.Fittings);
        RecordRow row = record.Valves.Single(v => v.Valve == "E1");
        Assert.Equal(("E1", row.Expected!.Mean, row.After!.Mean), (fitting.Valve, fitting.Expected, fitting.After));
        // The reading of 0.225 is known again from what it made of the expectation, up to the chance of a mistaken shim.
        Assert.Equal(0.225 - row.Expected.Mean, fitting.Miss!.Value.Miss, 0.003);
        ScoredChances group = Assert.Single(card.Chances);
        Assert.Equal(record.ChancePromised, group.Stated);
        Assert.Equal((record.Pass ? 1 : 0, 1), (group.Passed.Count, group.Passed.Trials));
        Assert.Equal(0.004, record.Seating);
        Assert.Null(card.Seating);
    }

    [Fact]
    public void Of_SecondRoundOrWorkNotFeltAgain_IsNoPromise()
    {
        Assert.Empty(Scorecard.Of([new(Record(0.9, true), true)]).Chances);
        Assert.Empty(Scorecard.Of([new(Record(0.9, true, felt: false), false)]).Chances);
        Assert.Single(Scorecard.Of([new(Record(0.9, true), false)]).Chances);
    }

    [Fact]
    public void Of_ManyPromises_AreCountedWhereTheyWereMade()
    {
        ScoredRecord[] records = [.. Enumerable.Range(0, 20).Select(i => new ScoredRecord(Record(i < 10 ? 0.92 : 1, i % 5 != 0), false))];
        Scorecard card = Scorecard.Of(records);
        Assert.Equal([(0.9, 8, 10), (0.95, 8, 10)], card.Chances.Select(c => (c.From, c.Passed.Count, c.Passed.Trials)));
    }

    /// <summary>A chance on an edge counts upwards; certainty has nothing above it.</summary>
    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.5, 0.5)]
    [InlineData(0.9, 0.9)]
    [InlineData(0.95, 0.95)]
    [InlineData(1, 0.95)]
    public void Of_PromiseOnAnEdge_CountsUpwards(double stated, double from) =>
        Assert.Equal(from, Assert.Single(Scorecard.Of([new(Record(stated, true), false)]).Chances).From);

    [Fact]
    public void Of_ThirtyFittings_TellTheSeating()
    {
        ScoredRecord[] records = [.. Enumerable.Range(0, SeatingEstimate.LeastFittings).Select(i => new ScoredRecord(Record(0.9, true, miss: i % 2 == 0 ? 0.01 : -0.01), false))];
        Assert.Null(Scorecard.Of(records[1..]).Seating);
        Scorecard card = Scorecard.Of(records);
        Assert.InRange(card.Seating!.Seating, 0.007, 0.01);
        Assert.Equal(0, card.Within(0.001)!.Value.Count);
        Assert.Equal(30, card.Within(0.02)!.Value.Count);
    }

    /// <summary>A record with one fitting that kept its promise or just did not: a promise is of the band, whatever the floor of a pass was then. Expected 0.150 with 0.005, read 0.003 well at a miss.</summary>
    private static JobRecord Record(double stated, bool pass, bool felt = true, double miss = 0)
    {
        const double prior = 0.005 * 0.005, reading = 0.003 * 0.003;
        double variance = 1 / ((1 / prior) + (1 / reading));
        double mean = 0.15 + (miss * variance / reading);
        EstimateRow after = new(mean, Math.Sqrt(variance), mean, mean, pass ? 0.5 : 0.4999, "unsettled");
        RecordRow row = new("I1", 1, "intake", [0.1, 0.2], after, "fit", null, null, null, new(0.15, 0.005), felt ? after : null, felt, pass);
        return new("Flood pump 7", 118, 119, "h", 20, null, [], stated, 40, [], false, [row], [], [], "", "", "");
    }
}
