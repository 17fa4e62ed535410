using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Past;

/// <summary>A job's check as a part of the engine's past, and its re-check as a check of its own.</summary>
internal static class PastCheck
{
    /// <summary>The check with what was done after it.</summary>
    /// <param name="job">The job, as its sheet says it.</param>
    public static WrittenCheck Of(WrittenJob job) => job.Check with { Blades = null, Changed = job.Recheck?.Changed ?? [] };

    /// <summary>The check and the dry fits after it, each with what was done after it; what was only seated anew is not told of.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="job">The job that it says.</param>
    public static IReadOnlyList<WrittenCheck> RoundsOf(JobSheet sheet, WrittenJob job)
    {
        if (job.Recheck?.DryFits is not { Count: > 0 } dryFits)
        {
            return [Of(job)];
        }

        IReadOnlyList<WorkStage<WrittenThickness>> stages = WorkStages.Of(
            [.. dryFits.Select(d => (DryWork.Under(sheet.Engine, d.Access!), Exchanges(d.Changed)))], Exchanges(job.Recheck.Changed));
        List<WrittenCheck> rounds = [];
        WrittenCheck check = job.Check with { Blades = null };
        foreach ((WorkStage<WrittenThickness> stage, int i) in stages.Select((s, i) => (s, i)))
        {
            rounds.Add(check with { Changed = [.. stage.Changed.Select(c => new WrittenChange(c.Key, c.Value.From, c.Value.To))] });
            check = check with
            {
                TemperatureC = sheet.RecheckTemperature,
                Readings = i < dryFits.Count ? dryFits[i].Readings ?? [] : [],
                Fitted = [.. (check.Fitted ?? []).Select(f => stage.Changed.TryGetValue(f.Valve, out Exchange<WrittenThickness> e) ? new(f.Valve, e.To.Thickness, e.To.By) : f)],
            };
        }

        return rounds;
    }

    /// <summary>The re-check: a check with the shims that were left in, and nothing changed after it.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="job">The job that it says. The sizes that depths rest on are those of the check, whichever round they were taken in.</param>
    /// <param name="clock">The engine's clock that it counts for.</param>
    public static WrittenCheck Again(JobSheet sheet, WrittenJob job, double clock) => new(
        clock, sheet.RecheckTemperature, job.Recheck?.Readings ?? [], Loss: job.Check.Loss, Camshafts: job.Check.Camshafts,
        Fitted: sheet.Engine.Valvetrain.HasShims ? [.. sheet.Engine.Valves.Select(v => LeftAt(sheet, v)).OfType<WrittenFitted>()] : null);

    /// <summary>Whether anything was felt at the re-check.</summary>
    public static bool HasAgain(JobSheet sheet) => sheet.Engine.Valves.Any(v => sheet.LastReading(SheetPart.Recheck, v.Id) is not null);

    /// <summary>
    /// The valves that were neither changed nor felt again and are as they were read, so that their readings went over to the check
    /// of a second round. None where the temperature was another one and moved the gaps.
    /// </summary>
    public static IReadOnlySet<string> Untouched(JobSheet sheet) =>
        sheet.RecheckTemperature != sheet.Check.TemperatureC && sheet.Engine.Heat is { IsNone: false }
            ? new HashSet<string>()
            : sheet.Engine.Valves.Select(v => v.Id)
                .Where(v => sheet.ChangeAt(v) is null && sheet.LastReading(SheetPart.Recheck, v) is null).ToHashSet(StringComparer.Ordinal);

    private static Dictionary<string, Exchange<WrittenThickness>> Exchanges(IReadOnlyList<WrittenChange>? changed) => (changed ?? [])
        .Where(c => c is { From: not null, To: not null })
        .ToDictionary(c => c.Valve, c => new Exchange<WrittenThickness>(c.From!, c.To!), StringComparer.Ordinal);

    /// <summary>The thickness that is in at a valve after the work, where it is known.</summary>
    private static WrittenFitted? LeftAt(JobSheet sheet, Valve valve) => sheet.ChangeAt(valve.Id) is ShimFitted fitted
        ? new(valve.Id, fitted.To.Thickness, fitted.To.By)
        : sheet.FoundAt(valve.Id) is { } found ? new(valve.Id, found.Thickness, found.By) : null;
}
