using Shimwright.Domain.FeelCalibration;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Pages.Due;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Files;

/// <summary>What was learnt from past work: fittings, the year, and a person's trials.</summary>
internal static class PastLists
{
    public static BenchList Scorecard { get; } = BenchList.Of<ScoredFitting>("How past fittings came out, newest first", "/due/scorecard.csv",
    [
        new("engine", "engine", f => f.Engine),
        new("valve", "valve", f => f.Valve),
        new("expected_mm", "clearance that the plan expected", f => f.Expected),
        new("expected_sd_mm", "its standard deviation", f => f.ExpectedSpread),
        new("after_mm", "clearance after the re-check", f => f.After),
        new("miss_mm", "how far it was felt from where it was expected; blank where the reading said too little", f => f.Miss?.Miss),
        new("miss_u_mm", "standard uncertainty of that, without the seating", f => f.Miss?.Uncertainty),
    ],
    async ask => Shimwright.Jobs.Due.Scorecard.Of(await ask.Bench.Due.RecordsAsync(ShopYear.MostRecords, ask.Cancel)).Fittings);

    public static BenchList Year { get; } = BenchList.Of<YearMonth>("The last twelve months, a row per month", "/year.csv", YearColumns.All, async ask =>
    {
        var local = LocalTimes.Of((await ask.Bench.Settings.CurrentAsync(ask.Cancel)).Settings, ask.Time);
        return YearView.Of(await ask.Bench.Due.RecordsAsync(ShopYear.MostRecords, ask.Cancel), local).Months;
    });

    public static BenchList Trials { get; } = BenchList.Of<FeelTrial>("A person's feel trials", "/feel/{id:guid}/trials.csv", TrialFile.Columns, async ask =>
        (await ask.Bench.Feel.FindAsync(ask.Id("id"), ask.Cancel))?.Book.Trials);
}
