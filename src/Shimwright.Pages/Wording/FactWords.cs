using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;

namespace Shimwright.Pages.Wording;

/// <summary>A fact as a person would say it.</summary>
public static class FactWords
{
    /// <summary>The fact in words.</summary>
    /// <param name="fact">The fact.</param>
    /// <param name="lengths">How lengths are written.</param>
    /// <returns>One line.</returns>
    public static string Of(JobFact fact, LengthStyle lengths)
    {
        string unit = lengths.UnitName;
        return fact switch
        {
            BladeTried b => $"{b.Valve}: blade {lengths.Shim(b.Blade)} {unit}{(b.Leaves > 1 ? $" of {b.Leaves} leaves" : "")}, {OfFeel(b.Feel)}",
            ClearanceRead c => $"{c.Valve}: {lengths.Clearance(c.Value)} {unit} measured, uncertainty {lengths.Clearance(c.U)}",
            BucketTurned t => $"{t.Valve}: bucket {(t.Turns ? "turns" : "does not turn")} by hand",
            DepthTaken d => $"{d.Valve}: depth {lengths.Clearance(d.Bucket.Value)} {unit} under the {d.Camshaft}",
            CamshaftMeasured c => $"{c.Camshaft}: saddle {lengths.Clearance(c.Saddle.Value)}, journal {lengths.Clearance(c.Journal.Value)}, base circle {lengths.Clearance(c.BaseCircle.Value)} {unit}",
            CamshaftCompared c => $"{c.Camshaft}: depths against {c.Valve}, whose clearance is {lengths.Clearance(c.Clearance.Value)} {unit}",
            ThicknessFound f => $"{f.Valve}: shim {lengths.Shim(f.Thickness)} {unit} found, {f.By}",
            ShimFitted f => $"{f.Valve}: {lengths.Shim(f.From.Thickness)} out, {lengths.Shim(f.To.Thickness)} {unit} in",
            ScrewTurned t => System.FormattableString.Invariant($"{t.Valve}: screw turned by {t.Turns:0.00} turns"),
            CheckStated c => System.FormattableString.Invariant($"Clock {c.Clock:0.#}, engine at {c.TemperatureC:0.#} °C"),
            ClockAnswered { Why: ClockAnswered.Meter } c => $"The meter was changed since {Times.Number(c.Last)}",
            ClockAnswered c => $"The clock is right, and {Times.Number(c.Last)} before was wrong",
            RecheckStated r => System.FormattableString.Invariant($"Re-check at {r.TemperatureC:0.#} °C"),
            LossSuspected l => $"Suspected: {SuspectedCause.Of(l.Cause)?.Title ?? l.Cause}",
            StockStated => "Shims at hand stated",
            CostsStated => "Costs stated",
            PlanAccepted => "A plan was accepted",
            PlanReleased => "The plan was let go",
            StepTicked s => $"Step {s.Step} {(s.Done ? "ticked" : "no longer ticked")}",
            CrankTurned c => System.FormattableString.Invariant($"Crank at stop {c.Stop}"),
            JobNoted n => $"Note: {n.Text}",
            JobNumbered n => n.Number.Length > 0 ? $"Job number {n.Number}" : "Job number as counted",
            PhotoKept p => $"Photo of {PhotoWords.Of(p.Shows)} {(p.Removed ? "removed" : "kept")}{(p.Caption.Length > 0 ? $": {p.Caption}" : "")}",
            JobClosed => "The job was closed",
            JobReopened => "The job was opened again",
            JobDiscarded => "The job was discarded",
            JobPutBack => "The job was put back",
            Undone => "Something was taken back",
            _ => fact.GetType().Name,
        };
    }

    /// <summary>A feel in the words of the page.</summary>
    public static string OfFeel(string feel) => feel switch
    {
        "no" => "won't enter",
        "firm" => "firm",
        "light" => "light",
        _ => "loose",
    };
}
