using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Closing;

/// <summary>Writes the record of a job when it is closed.</summary>
public static class RecordOfJob
{
    /// <summary>The record of a job that is closed.</summary>
    /// <param name="sheet">The job's sheet.</param>
    /// <returns>The record.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    /// <exception cref="InvalidOperationException">The job is open, or its sheet is no job.</exception>
    public static JobRecord Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        JobClosed closing = sheet.Closing ?? throw new InvalidOperationException("Only a closed job has a record.");
        ParsedJob reading = JobSheetFile.Read(sheet, JobPurpose.Draft);
        Job job = reading.Job ?? throw new InvalidOperationException($"The sheet is no job file: {string.Join("; ", reading.Problems)}");
        EngineEstimate estimate = EngineEstimate.From(job.Check);
        var verdict = RecheckVerdict.On(job.ToRecheck());
        RecordRow[] rows = [.. sheet.Engine.Valves.Select((v, i) => RowOf(sheet, i, job, estimate, verdict))];
        return new(
            sheet.Engine.Name, sheet.Check.Clock, closing.Clock, sheet.Setup.Card.Wear is { CountsKilometres: true } ? "km" : "h", sheet.Check.TemperatureC,
            sheet.Suspected?.Title,
            sheet.Plan?.Opened ?? [], sheet.Plan?.ChanceAll, sheet.Plan?.Minutes, sheet.Plan?.Bought ?? [],
            rows.All(r => r.Passes), rows,
            [.. FitSteps.For(sheet).Where(s => sheet.IsDone(s.Name)).Select(s => s.Text)],
            CautionsOf(sheet, job, verdict, rows),
            closing.Found, closing.Notes, closing.By)
        {
            ChanceAll = Rounding.Chance(verdict.ChanceAll),
            Seating = job.Rules.Seating.StandardDeviation,
        };
    }

    private static IReadOnlyList<string> CautionsOf(JobSheet sheet, Job job, RecheckVerdict verdict, RecordRow[] rows)
    {
        IEnumerable<string> ofCheck = WrittenSheet.Recheck(sheet) is null ? Results.Cautions.OfCheck(job) : [];
        return [.. ofCheck.Concat(Results.Cautions.OfRecheck(job, verdict, LengthWords.Millimetres, isClosed: true)).Concat(LeftOpen(sheet, rows)).Distinct()];
    }

    /// <summary>What the job was closed without.</summary>
    private static IEnumerable<string> LeftOpen(JobSheet sheet, RecordRow[] rows)
    {
        if (sheet.Newest<ClockAnswered>() is { } clock)
        {
            yield return clock.Why == ClockAnswered.Meter
                ? $"The meter was changed since {NumberRule.Text(clock.Last)} on the old one. Wear is counted from this check on."
                : $"The clock was known as {NumberRule.Text(clock.Last)} before, which was wrong. Wear is counted from this check on.";
        }

        string[] notFelt = [.. rows.Where(r => r is { Change: not null, ReadAgain: false }).Select(r => r.Valve)];
        if (notFelt.Length > 0)
        {
            yield return $"Changed and not felt again: {string.Join(", ", notFelt)}. What the clearance is there is only expected; feel it before the engine runs.";
        }

        foreach (PlanRow planned in sheet.Plan?.Changes.Where(sheet.IsOwed) ?? [])
        {
            yield return $"{planned.Valve} was to be changed by the plan, and nothing was noted as done there.";
        }

        foreach (FitStep step in FitSteps.For(sheet).Where(s => s.Must && !sheet.IsDone(s.Name)))
        {
            yield return $"Not ticked when the job was closed: {step.Text}";
        }
    }

    private static RecordRow RowOf(JobSheet sheet, int index, Job job, EngineEstimate estimate, RecheckVerdict verdict)
    {
        var valve = sheet.Engine.Valves[index];
        EstimateRow? before = job.Check.ReadAt(index) is null ? null : EstimateRow.Of(estimate.Valves[index].Summarise());
        ChangeFact? change = sheet.ChangeAt(valve.Id);
        bool readAgain = !job.Rechecked[index].IsEmpty;
        RecheckedValve judged = verdict.Valves[index];
        EstimateRow? after = (change is not null || before is null) && !readAgain ? null : EstimateRow.Of(judged.Estimate);
        return new(
            valve.Id, valve.Cylinder, Words.Of(valve.Side), [valve.Band.Low, valve.Band.High], before,
            change switch { ShimFitted => "fit", ScrewTurned => "turn", _ => null },
            (change as ScrewTurned)?.Turns,
            sheet.FoundAt(valve.Id) is { } found ? new ThicknessRow(found.Thickness, found.By) : null,
            (change as ShimFitted)?.To,
            change is not null ? PredictedRow.Of(judged.Predicted) : null,
            after, readAgain, after is not null && judged.Passes)
        {
            FeltTooLittle = judged.Result == PassResult.FeltTooLittle,
            Source = change is ShimFitted fitted ? DrawerUse.SourceOf(sheet, fitted) : null,
        };
    }
}
