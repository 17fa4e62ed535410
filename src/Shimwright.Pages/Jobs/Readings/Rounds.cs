using Shimwright.Bench.Jobs;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Rechecking;
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
        [.. sheet.Engine.Valves.Select((valve, v) => WithFurther(
            new(valve, RowOf(answer.Estimate.Valves[v]), null, null, [.. sheet.Readings(SheetPart.Check, valve.Id)], true, answer.NextBlades[v]), answer.Job.Blades))],
        answer.Stops,
        CrankOf(sheet, SheetPart.Check),
        answer.Estimate.NextBlade?.Valve);

    /// <summary>The re-check after the work: it waits for the changed valves, and the others may be felt again.</summary>
    public static ReadingRound Recheck(JobSheet sheet, JobAnswer answer) => new(
        SheetPart.Recheck,
        [.. sheet.Engine.Valves.Select((valve, v) => Again(valve, v, sheet, answer))],
        answer.Stops,
        CrankOf(sheet, SheetPart.Recheck));

    /// <summary>The stop at which the crank was left in a round, or null.</summary>
    private static int? CrankOf(JobSheet sheet, SheetPart part) =>
        sheet.InForce.LastOrDefault(e => e.Fact is CrankTurned crank && crank.Part == part)?.Fact is CrankTurned last ? last.Stop : null;

    /// <summary>
    /// A valve that is surely out of band still wants its gap known for a shim: where every blade was loose a thicker one is suggested,
    /// where none entered a thinner one, nearest to what is expected.
    /// </summary>
    private static RoundValve WithFurther(RoundValve valve, IReadOnlyList<double> blades)
    {
        if (valve is not { Blade: null, IsOneSided: true, Estimate.Status: "out" })
        {
            return valve;
        }

        double[] tried = [.. valve.Readings.Select(r => r.Fact).OfType<BladeTried>().Select(t => t.Blade)];
        double[] further = [.. blades.Where(b => valve.IsBlind ? b < tried.Min() : b > tried.Max())];
        return further.Length == 0 ? valve : valve with { Blade = further.MinBy(b => Math.Abs(b - valve.Estimate.Mean)), IsFurther = true };
    }

    /// <summary>A dry fit: the valves under a camshaft that can be laid down dry. It waits for the changed ones; the others may be felt as well.</summary>
    public static ReadingRound Dry(JobSheet sheet, JobAnswer answer)
    {
        HashSet<string> ready = [.. DryFits.Ready(sheet)];
        return new(
            SheetPart.DryFit,
            [.. sheet.Engine.Valves.Select((valve, v) => (valve, v)).Where(v => ready.Contains(v.valve.Access)).Select(v => Dry(v.valve, v.v, sheet, answer))],
            null,
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
            isSettled && row.Result != PassResult.FeltTooLittle ? null : RecheckNext.BladeAt(answer.Job, place, expected));
    }

    private static EstimateRow RowOf(ValveEstimate e) => new(e.Mean, e.Sd, e.Low, e.High, e.InBand, e.Status);
}
