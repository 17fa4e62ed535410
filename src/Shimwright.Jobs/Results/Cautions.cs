using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Wording;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>What a person should bear in mind about the figures of one job.</summary>
public static class Cautions
{
    /// <summary>The difference at which the shim that came out is not the one that was found, mm.</summary>
    private const double OtherShim = 0.001;

    /// <summary>Of a check.</summary>
    /// <param name="job">The job.</param>
    /// <param name="estimate">Its estimate, where it is at hand.</param>
    /// <param name="words">How lengths are written; in millimetres where it is left out.</param>
    /// <returns>One caution an entry.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static IReadOnlyList<string> OfCheck(Job job, EngineEstimate? estimate = null, LengthWords? words = null)
    {
        ArgumentNullException.ThrowIfNull(job);
        List<string> cautions = [.. Contradictions.Cautions(job.Engine, job.Check.Readings, words ?? LengthWords.Millimetres)];
        if (TightValves.Decompressed(job, job.Check.Readings, estimate is null ? null : [.. estimate.Valves.Select(v => v.Summarise())]) is { } lifted)
        {
            cautions.Add(lifted);
        }

        cautions.AddRange(LeftOut.Cautions(job.Engine, job.Check.Readings));
        cautions.AddRange(((string?[])[LeftOut.Past(job), LeftOut.Finer(estimate?.Floor ?? 0)]).OfType<string>());
        AddTemperature(cautions, job.Check);
        if (LeverCautions.Of(job.Engine.Valvetrain) is { } lever)
        {
            cautions.Add(lever);
        }

        AddBlind(cautions, job.Engine, job.Check.Readings);
        cautions.AddRange(DepthRow.Cautions(job));
        return cautions;
    }

    /// <summary>Of a plan.</summary>
    /// <param name="job">The job.</param>
    /// <param name="plan">Its plan.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>One caution an entry.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/>, <paramref name="plan"/> or <paramref name="words"/> is null.</exception>
    public static IReadOnlyList<string> OfPlan(Job job, PlanChoice plan, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(words);
        List<string> cautions = [.. OfCheck(job, plan.Estimate, words), .. Disagreements.Cautions(plan.Estimate, words)];
        if (LeftOut.Unproven(plan.Unproven) is { } unproven)
        {
            cautions.Add(unproven);
        }

        cautions.AddRange(plan.Chosen.Valves.Select(v => OfLine(job, v, words)).OfType<string>());
        if (plan.Chosen.Stranded.Count > 0)
        {
            string stranded = string.Join(", ", plan.Chosen.Stranded.Select(s => job.Engine.Valves[s.Valve].Id));
            cautions.Add($"Do not close the engine and run it with {stranded} as it is: a valve without clearance is held off its seat and burns, "
                + "one with too much hammers. Get the thickness it wants, or have valve and seat looked at.");
        }

        return cautions;
    }

    /// <summary>Of a re-check.</summary>
    /// <param name="job">The job.</param>
    /// <param name="verdict">Its verdict.</param>
    /// <param name="words">How lengths are written.</param>
    /// <param name="isClosed">Whether it is for the record of a closed job, which nobody feels once more.</param>
    /// <returns>One caution an entry.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/>, <paramref name="verdict"/> or <paramref name="words"/> is null.</exception>
    public static IReadOnlyList<string> OfRecheck(Job job, RecheckVerdict verdict, LengthWords words, bool isClosed = false)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(verdict);
        ArgumentNullException.ThrowIfNull(words);
        List<string> cautions = [.. Contradictions.Cautions(job.Engine, job.Rechecked, words)];
        if (TightValves.Decompressed(job, job.Rechecked, [.. verdict.Valves.Select(v => v.Estimate)]) is { } lifted)
        {
            cautions.Add(lifted);
        }

        cautions.AddRange(LeftOut.Cautions(job.Engine, job.Rechecked));
        if (LeftOut.Finer(verdict.Floor) is { } finer)
        {
            cautions.Add(finer);
        }

        AddTemperature(cautions, job.Check);
        if (job.RecheckTemperature != job.Check.Temperature)
        {
            AddTemperature(cautions, job.Check.Again(job.Rechecked, job.RecheckTemperature));
        }

        foreach (Adjustment change in job.Changes)
        {
            Valve valve = job.Engine.Valves[change.Valve];
            if (change.From is { } from && job.FittedAt(valve) is { } found
                && Math.Abs(from.Millimetres - found.Millimetres) > OtherShim)
            {
                cautions.Add(Invariant($"{valve.Id}: the shim that came out is noted as {words.Shim(from.Millimetres)} {words.Unit}, the one found at the check as {words.Shim(found.Millimetres)}. The prediction takes the one that came out."));
            }
        }

        foreach (RecheckedValve valve in verdict.Valves.Where(v => v.IsSurprising))
        {
            cautions.Add(Invariant($"{valve.Valve.Id}: the reading is far from the {words.Clearance(valve.Predicted.Mean)} {words.Unit} expected (surprise {valve.Surprise:0.0000}). Look again before closing: wrong shim, shim not seated, dirt, or a misread blade."));
        }

        cautions.AddRange(verdict.Valves.Select(v => VerdictWords.WhyNot(v, job.Sections.Settings.Pass, job.Blades, words)).OfType<string>());
        foreach (RecheckedValve valve in verdict.Valves.Where(v => v.Passes && v.Estimate.Status == ClearanceStatus.Unsettled))
        {
            cautions.Add(isClosed ? Invariant($"{valve.Valve.Id} passes with a chance of {valve.Estimate.InBand * 100:0.0} %: feel it first at the next check.")
                : Invariant($"{valve.Valve.Id} passes, but only with a chance of {valve.Estimate.InBand:0.00}: feel it once more, with another blade, before closing."));
        }

        AddBlind(cautions, job.Engine, job.Rechecked);
        return cautions;
    }

    /// <summary>Where what is done at a valve is the best there is and still not good: it stays below what the verdict asks for, or is no better than before.</summary>
    private static string? OfLine(Job job, PlannedValve valve, LengthWords words) => valve switch
    {
        { Action: ValveAction.Keep, IsStranded: false } when valve.Estimate.InBand < job.Sections.Settings.Pass.Floor =>
            Invariant($"{valve.Valve.Id} stays as it is with a chance of {valve.Estimate.InBand:0.00} to be in band. The verdict asks for {job.Sections.Settings.Pass.Floor:0.00}: feel it again before you close."),
        { Action: ValveAction.Fit, To: { } to, Wanted: { } wanted } when job.Horizon <= 0 && valve.Chance < valve.Estimate.InBand =>
            Invariant($"{valve.Valve.Id}: with the {words.Shim(to.Millimetres)}, the best at hand, the chance to be in band is {valve.Chance:0.00}, and {valve.Estimate.InBand:0.00} as it is. Get one near {words.Clearance(wanted)} {words.Unit} if you can."),
        _ => null,
    };

    private static void AddTemperature(List<string> cautions, EngineCheck check)
    {
        if (check.IsTemperatureDoubtful)
        {
            cautions.Add(Invariant($"Read at {check.Temperature:0.#} degrees C, and how temperature moves this engine's clearances is not known (kappaMmPerC): the figures are not corrected. Let it cool to about 20 degrees C and read again, or see the maker's manual."));
        }
    }

    private static void AddBlind(List<string> cautions, Engine engine, IReadOnlyList<ValveReadings> readings)
    {
        string[] blind = [.. engine.Valves.Where((_, v) => TightValves.IsBlind(readings[v])).Select(v => v.Id)];
        if (blind.Length > 0)
        {
            cautions.Add($"No blade entered at {string.Join(", ", blind)}: the reading only says less than the thinnest blade tried. "
                + "How much less is expectation, not feel; a thinner blade or a depth measurement says more.");
        }
    }
}
