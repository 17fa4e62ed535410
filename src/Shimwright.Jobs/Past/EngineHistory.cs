using System.Text.Json.Nodes;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;

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
    /// <returns>The member "history" of a job file, oldest first.</returns>
    public static JsonArray Of(EngineCard card, IReadOnlyList<PastJob> closed)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(closed);
        HashSet<Guid> continued = [.. closed.Select(j => j.Follows).OfType<Guid>()];
        IEnumerable<JsonObject> own = closed.SelectMany(j => Own(j.Sheet, continued.Contains(j.Id)));
        JsonObject[] entries = [.. closed.Where(j => j.Origin == PastOrigin.File).SelectMany(j => OfFile(j.Sheet)).Concat(own)
            .DistinctBy(Key).OrderBy(ClockOf)
            .Select(e => OnCard(e, card)).TakeLast(MostEntries)];
        return new JsonArray([.. Readable(card, entries)]);
    }

    /// <summary>The engine's clock at the last check of a past, or null.</summary>
    /// <param name="history">The past.</param>
    /// <returns>Hours or km.</returns>
    public static double? LastClock(JsonArray history)
    {
        ArgumentNullException.ThrowIfNull(history);
        return history.Count == 0 ? null : ClockOf((JsonObject)history[^1]!);
    }

    /// <summary>How many times the engine was checked: a re-check at the clock of its check is no other time.</summary>
    /// <param name="history">The past.</param>
    /// <returns>The number.</returns>
    public static int Times(JsonArray history)
    {
        ArgumentNullException.ThrowIfNull(history);
        return history.Select(h => ClockOf((JsonObject)h!)).Distinct().Count();
    }

    /// <summary>
    /// Takes the engine as it is now out of a past: its last check where nothing was changed after it, else a check without
    /// readings that has the shims left in.
    /// </summary>
    /// <param name="history">The past, not empty; what is taken is no longer in it.</param>
    /// <returns>The member "check" of a job file.</returns>
    public static JsonObject TakeNow(JsonArray history)
    {
        ArgumentNullException.ThrowIfNull(history);
        var last = (JsonObject)history[^1]!;
        JsonObject[] changed = [.. (last["changed"] as JsonArray ?? []).Select(c => (JsonObject)c!)];
        if (changed.Length == 0)
        {
            history.RemoveAt(history.Count - 1);
            last.Remove("changed");
            return last;
        }

        JsonObject now = new() { ["clock"] = last["clock"]!.DeepClone(), ["temperatureC"] = last["temperatureC"]?.DeepClone() ?? 20, ["readings"] = new JsonArray() };
        if (last["fitted"] is JsonArray fitted)
        {
            now["fitted"] = new JsonArray([.. fitted.Select(f => LeftIn((JsonObject)f!, changed))]);
        }

        return now;
    }

    /// <summary>A job's own part. Where a second round follows, its check has what was felt again and what was not touched.</summary>
    private static IEnumerable<JsonObject> Own(JobSheet sheet, bool isContinued)
    {
        JsonObject check = PastCheck.Of(sheet);
        if (isContinued)
        {
            PastCheck.TakeReadings(check, PastCheck.Untouched(sheet));
        }

        yield return check;
        if (!isContinued && PastCheck.HasAgain(sheet))
        {
            yield return PastCheck.Again(sheet, sheet.Check.Clock);
        }
    }

    private static IEnumerable<JsonObject> OfFile(JobSheet sheet) =>
        (sheet.Setup.NewFile()["history"] as JsonArray ?? []).Select(h => (JsonObject)h!.DeepClone());

    private static JsonObject LeftIn(JsonObject found, JsonObject[] changed)
    {
        if (changed.FirstOrDefault(c => (string)c["valve"]! == (string)found["valve"]!)?["to"] is not JsonObject to)
        {
            return (JsonObject)found.DeepClone();
        }

        var left = (JsonObject)to.DeepClone();
        left["valve"] = found["valve"]!.DeepClone();
        return left;
    }

    /// <summary>The same check out of two files is one.</summary>
    private static string Key(JsonObject entry) => $"{ClockOf(entry):R} {entry["readings"]?.ToJsonString()} {entry["changed"]?.ToJsonString() ?? "[]"}";

    private static double ClockOf(JsonObject entry) => (double)entry["clock"]!;

    /// <summary>An entry without what the card no longer has a place for: valves that are gone, turns of screws that are shims now.</summary>
    private static JsonObject OnCard(JsonObject entry, EngineCard card)
    {
        HashSet<string> valves = [.. card.Engine.Valves.Select(v => v.Id)];
        bool hasShims = card.Engine.Valvetrain.HasShims;
        foreach (string name in new[] { "readings", "fitted", "changed" })
        {
            if (entry[name] is JsonArray rows)
            {
                entry[name] = new JsonArray([.. rows.OfType<JsonObject>()
                    .Where(r => valves.Contains((string?)r["valve"] ?? "") && (name != "changed" || r.ContainsKey("turns") != hasShims))
                    .Select(r => r.DeepClone())]);
            }
        }

        if (!hasShims)
        {
            entry.Remove("fitted");
        }

        return entry;
    }

    /// <summary>All entries; where the card has changed so that some can no longer be read, those that can.</summary>
    private static IEnumerable<JsonObject> Readable(EngineCard card, JsonObject[] entries) =>
        CanBeRead(card, entries) ? entries : entries.Where(e => CanBeRead(card, e));

    private static bool CanBeRead(EngineCard card, params JsonObject[] entries)
    {
        JsonObject bench = new() { ["history"] = new JsonArray([.. entries.Select(e => e.DeepClone())]) };
        return JobSetup.Begin(card, entries.Length == 0 ? 0 : ClockOf(entries[^1]), 20, bench).Problems.Count == 0;
    }
}
