using Shimwright.Bench.Jobs;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>The rounds of reading of a job.</summary>
internal static class Rounds
{
    /// <summary>The check before anything is changed.</summary>
    public static ReadingRound Check(JobSheet sheet, JobAnswer answer) => new(
        SheetPart.Check,
        [.. sheet.Engine.Valves.Select((valve, v) => new RoundValve(
            valve, RowOf(answer.Estimate.Valves[v]), null, null, [.. sheet.Readings(SheetPart.Check, valve.Id)], true, answer.NextBlades[v]))],
        answer.Stops,
        answer.Estimate.NextBlade?.Valve);

    /// <summary>The re-check after the work: it waits for the changed valves, and the others may be felt again.</summary>
    public static ReadingRound Recheck(JobSheet sheet, JobAnswer answer) => new(
        SheetPart.Recheck,
        [.. sheet.Engine.Valves.Select((valve, v) => Again(valve, v, sheet, answer))],
        answer.Stops);

    /// <summary>A dry fit: the valves under a camshaft that can be laid down dry. It waits for the changed ones; the others may be felt as well.</summary>
    public static ReadingRound Dry(JobSheet sheet, JobAnswer answer)
    {
        HashSet<string> ready = [.. DryFits.Ready(sheet)];
        return new(
            SheetPart.DryFit,
            [.. sheet.Engine.Valves.Select((valve, v) => (valve, v)).Where(v => ready.Contains(v.valve.Access)).Select(v => Dry(v.valve, v.v, sheet, answer))],
            null);
    }

    private static RoundValve Dry(Valve valve, int place, JobSheet sheet, JobAnswer answer)
    {
        JobEntry[] readings = [.. sheet.Readings(SheetPart.DryFit, valve.Id)];
        VerdictRow expected = answer.Recheck.Valves[place];
        EstimateRow estimate = answer.DryPlan?.Valves[place].Estimate ?? expected.Estimate;
        bool isChanged = sheet.ChangeAt(valve.Id) is not null;
        double mean = readings.Length == 0 ? expected.Predicted.Mean : estimate.Mean;
        bool isSettled = readings.Length > 0 && estimate.Status != "unsettled";
        return new(
            valve, estimate, isChanged ? expected.Predicted : null, null, readings, isChanged,
            isSettled ? null : RecheckNext.Untried(answer.Job.Blades, readings.Select(r => r.Fact).OfType<BladeTried>().Select(t => t.Blade), mean));
    }

    private static RoundValve Again(Valve valve, int place, JobSheet sheet, JobAnswer answer)
    {
        VerdictRow row = answer.Recheck.Valves[place];
        JobEntry[] readings = [.. sheet.Readings(SheetPart.Recheck, valve.Id)];
        bool isChanged = sheet.ChangeAt(valve.Id) is not null;
        AfterRow? promised = sheet.Plan?.Changes.FirstOrDefault(c => c.Valve == valve.Id)?.After;
        bool isWaiting = promised is not null && !isChanged;
        PredictedRow? predicted = isWaiting ? new(promised!.Mean, promised.Sd) : isChanged ? row.Predicted : null;
        double expected = readings.Length == 0 ? (predicted ?? row.Predicted).Mean : row.Estimate.Mean;
        bool isSettled = readings.Length > 0 && row.Estimate.Status != "unsettled";
        return new(
            valve, row.Estimate, predicted, row.Surprise, readings, isChanged || isWaiting,
            isSettled ? null : RecheckNext.BladeAt(answer.Job, place, expected));
    }

    private static EstimateRow RowOf(ValveEstimate e) => new(e.Mean, e.Sd, e.Low, e.High, e.InBand, e.Status);
}
