using Shimwright.Domain.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Past;

/// <summary>Where the past in a job's setup comes from.</summary>
public enum PastOrigin
{
    /// <summary>It stood in a file that was taken in; nothing else on the bench has it.</summary>
    File,

    /// <summary>It was put together from the jobs of the engine, which are asked again.</summary>
    Bench,

    /// <summary>The job is the second round of another.</summary>
    SecondRound,
}

/// <summary>A closed job as a part of its engine's past.</summary>
/// <param name="Id">The job.</param>
/// <param name="Sheet">Its sheet.</param>
/// <param name="Origin">Where the past in its setup comes from.</param>
/// <param name="Follows">The job whose second round it is, or null.</param>
public sealed record PastJob(Guid Id, JobSheet Sheet, PastOrigin Origin, Guid? Follows = null);

/// <summary>
/// The past of an engine out of its closed jobs: each check with what was found and done, then its re-check as a check of its
/// own at the same clock with the shims left in. What a job inherited from other jobs is not counted again: they are asked
/// themselves, so that a correction reaches everything that comes after it.
/// </summary>
public static class EngineHistory
{
    private const int MostEntries = 1000;

    /// <summary>The past of an engine.</summary>
    /// <param name="card">The engine's card as it is now: what its valves no longer are is left out.</param>
    /// <param name="closed">Its closed jobs, oldest first.</param>
    /// <returns>Its past checks, oldest first.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="card"/> or <paramref name="closed"/> is null.</exception>
    public static IReadOnlyList<WrittenCheck> Of(EngineCard card, IReadOnlyList<PastJob> closed)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(closed);
        ILookup<Guid, JobSheet> rounds = closed.Where(j => j.Follows is not null).ToLookup(j => j.Follows!.Value, j => j.Sheet);
        IEnumerable<WrittenCheck> own = closed.SelectMany(j => Own(j.Sheet, rounds[j.Id].FirstOrDefault()));
        WrittenCheck[] entries = [.. closed.Where(j => j.Origin == PastOrigin.File).SelectMany(InItsFile).Concat(own)
            .Distinct(new SamePast()).OrderBy(e => e.Clock)
            .Select(e => OnCard(e, card.Engine)).TakeLast(MostEntries)];
        return Readable(card, entries);
    }

    /// <summary>The engine's clock at the last check of a past, or null.</summary>
    /// <param name="history">The past.</param>
    /// <returns>Hours or km.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="history"/> is null.</exception>
    public static double? LastClock(IReadOnlyList<WrittenCheck> history)
    {
        ArgumentNullException.ThrowIfNull(history);
        return history.Count == 0 ? null : history[^1].Clock;
    }

    /// <summary>How many times the engine was checked: a re-check at the clock of its check is no other time.</summary>
    /// <param name="history">The past.</param>
    /// <returns>The number.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="history"/> is null.</exception>
    public static int Times(IReadOnlyList<WrittenCheck> history)
    {
        ArgumentNullException.ThrowIfNull(history);
        return history.Select(h => h.Clock).Distinct().Count();
    }

    /// <summary>
    /// The engine as it is now, out of a past: its last check where nothing was changed after it, else a check without
    /// readings that has the shims left in; and the past before that.
    /// </summary>
    /// <param name="history">The past, not empty.</param>
    /// <returns>The check, and the checks before it.</returns>
    /// <exception cref="ArgumentException">The past is empty.</exception>
    /// <exception cref="ArgumentNullException"><paramref name="history"/> is null.</exception>
    public static (WrittenCheck Now, IReadOnlyList<WrittenCheck> Before) Now(IReadOnlyList<WrittenCheck> history)
    {
        ArgumentNullException.ThrowIfNull(history);
        if (history.Count == 0)
        {
            throw new ArgumentException("An engine that was never checked has no state.", nameof(history));
        }

        WrittenCheck last = history[^1];
        return last.Changed is not { Count: > 0 } changed
            ? (last with { Changed = null }, [.. history.SkipLast(1)])
            : (new(last.Clock, last.TemperatureC ?? ThermalShift.Reference, [], Fitted: last.Fitted is { } fitted ? [.. fitted.Select(f => LeftIn(f, changed))] : null), history);
    }

    private static IEnumerable<WrittenCheck> InItsFile(PastJob job) => [.. job.Sheet.Setup.Written.History ?? [], .. job.Sheet.Setup.Written.Rounds ?? []];

    /// <summary>A job's own part. Where a second round follows, the check of that has what was felt again.</summary>
    private static IEnumerable<WrittenCheck> Own(JobSheet sheet, JobSheet? next)
    {
        WrittenJob job = WrittenSheet.Of(sheet);
        WrittenCheck check = PastCheck.Of(job);
        if (next is { Setup.Written.Rounds: null })
        {
            // Second rounds that benches have kept from before there were rounds took the readings of untouched valves over.
            IReadOnlySet<string> untouched = PastCheck.Untouched(sheet);
            check = check with { Readings = [.. check.Readings.Where(r => !untouched.Contains(r.Valve))] };
        }

        yield return check;
        if (next is null && PastCheck.HasAgain(sheet))
        {
            yield return PastCheck.Again(sheet, job, sheet.Check.Clock);
        }
    }

    private static WrittenFitted LeftIn(WrittenFitted found, IReadOnlyList<WrittenChange> changed) =>
        changed.FirstOrDefault(c => c.Valve == found.Valve)?.To is { } to ? new(found.Valve, to.Thickness, to.By) : found;

    /// <summary>An entry without what the card no longer has a place for: valves that are gone, turns of screws that are shims now.</summary>
    private static WrittenCheck OnCard(WrittenCheck entry, Engine engine)
    {
        HashSet<string> valves = [.. engine.Valves.Select(v => v.Id)];
        bool hasShims = engine.Valvetrain.HasShims;
        return entry with
        {
            Readings = [.. entry.Readings.Where(r => valves.Contains(r.Valve))],
            Fitted = hasShims && entry.Fitted is { } fitted ? [.. fitted.Where(f => valves.Contains(f.Valve))] : null,
            Changed = entry.Changed is { } changed ? [.. changed.Where(c => valves.Contains(c.Valve) && (c.Turns is null) == hasShims)] : null,
        };
    }

    /// <summary>All entries; where the card has changed so that some can no longer be read, those that can.</summary>
    private static WrittenCheck[] Readable(EngineCard card, WrittenCheck[] entries) =>
        CanBeRead(card, entries) ? entries : [.. entries.Where(e => CanBeRead(card, e))];

    private static bool CanBeRead(EngineCard card, params WrittenCheck[] entries)
    {
        WrittenCheck now = new(entries.Length == 0 ? 0 : entries[^1].Clock, ThermalShift.Reference, []);
        return JobFile.Problems(new(now, entries), card.Section).Count == 0;
    }
}
