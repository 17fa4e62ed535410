using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Shimwright.Bench.Drawer;

namespace Shimwright.Bench.Contents;

/// <summary>A row under a key of its own.</summary>
/// <param name="Key">The kind of row, and which one.</param>
/// <param name="Line">The row, one line of JSON as in an archive; null where the row is taken away.</param>
public sealed record KeptLine(string Key, string? Line)
{
    /// <summary>Whether whoever holds the row already need not hear of it.</summary>
    public bool IsQuiet { get; init; }
}

/// <summary>
/// Rows of a bench for a store that knows keys and text and nothing else. A later line under a key replaces an earlier one. In the order
/// of their keys rows are in their own order.
/// </summary>
public static class KeptLines
{
    private const string Removed = "removed";

    private static readonly HashSet<string> Kinds =
    [
        Removed, NameOf(ArchiveKinds.Cards), NameOf(ArchiveKinds.Engines), NameOf(ArchiveKinds.Jobs), NameOf(ArchiveKinds.Facts), NameOf(ArchiveKinds.Promises),
        NameOf(ArchiveKinds.Ledger), NameOf(ArchiveKinds.Settings), NameOf(ArchiveKinds.Feels), NameOf(ArchiveKinds.Counts),
    ];

    private static readonly HashSet<string> AddedOnly = [NameOf(ArchiveKinds.Facts), NameOf(ArchiveKinds.Ledger), NameOf(ArchiveKinds.Settings), NameOf(ArchiveKinds.Feels)];

    /// <summary>The lines of a change. Pictures are no part of them: they are large, and kept for themselves.</summary>
    /// <param name="change">What has changed.</param>
    /// <param name="before">What the bench held before; asked only where an engine is removed.</param>
    /// <returns>The lines.</returns>
    public static IReadOnlyList<KeptLine> Of(BenchContents change, Func<BenchContents> before)
    {
        ArgumentNullException.ThrowIfNull(change);
        ArgumentNullException.ThrowIfNull(before);
        return
        [
            .. change.Removed.SelectMany(e => Removal(e, before())),
            .. Lines(ArchiveKinds.Cards, change.Cards, r => r.Id.ToString()),
            .. Lines(ArchiveKinds.Engines, change.Engines, r => r.Id.ToString()),
            .. Lines(ArchiveKinds.Jobs, change.Jobs, r => r.Id.ToString()),
            .. Lines(ArchiveKinds.Facts, change.Facts, r => $"{r.Job}/{Place(r.Number)}"),
            .. change.Promises.Select(p => new KeptLine(Key(ArchiveKinds.Promises, p.Job.ToString()), string.Join('\n', ArchivePromise.Of(p).Select(w => Text(w, ArchiveKinds.Promises.Row))))),
            .. Lines(ArchiveKinds.Ledger, change.Ledger, r => Place(r.Number)),
            .. Lines(ArchiveKinds.Settings, change.Settings, r => Place(r.Version)),
            .. Lines(ArchiveKinds.Feels, change.Feels, r => $"{r.Person}/{Place(r.Number)}"),
            .. Lines(ArchiveKinds.Counts, change.Counts, r => r.Name),
        ];
    }

    /// <summary>Reads lines.</summary>
    /// <param name="lines">The lines, in the order of their keys.</param>
    /// <returns>The rows.</returns>
    /// <exception cref="FormatException">A line is no row of a bench.</exception>
    public static BenchContents Read(IEnumerable<KeptLine> lines)
    {
        ILookup<string, KeptLine> kinds = lines.Where(l => l.Line is not null).ToLookup(l => l.Key.Split('/')[0]);
        return new()
        {
            Removed = [.. kinds[Removed].Select(l => Guid.Parse(l.Line!, CultureInfo.InvariantCulture))],
            Cards = Rows(ArchiveKinds.Cards),
            Engines = Rows(ArchiveKinds.Engines),
            Jobs = Rows(ArchiveKinds.Jobs),
            Facts = Rows(ArchiveKinds.Facts),
            Promises = [.. kinds[NameOf(ArchiveKinds.Promises)].Select(Promises)],
            Ledger = Rows(ArchiveKinds.Ledger),
            Settings = Rows(ArchiveKinds.Settings),
            Feels = Rows(ArchiveKinds.Feels),
            Counts = Rows(ArchiveKinds.Counts),
        };

        IReadOnlyList<T> Rows<T>(ArchiveKind<T> kind) => [.. kinds[NameOf(kind)].Select(l => Row(l.Line!, l.Key, kind.Row))];
    }

    /// <summary>Whether a key is one of a row, or of an engine that was removed.</summary>
    /// <param name="key">The key.</param>
    /// <returns>Whether it is.</returns>
    public static bool IsRow(string key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return Kinds.Contains(key.Split('/')[0]);
    }

    /// <summary>Whether a key says that an engine was removed; no row lies there.</summary>
    internal static bool IsRemoval(string key) => key.StartsWith(Removed + "/", StringComparison.Ordinal);

    /// <summary>Whether rows of a key's kind are added and never changed, so that one under a new key was not there before.</summary>
    internal static bool IsAddedOnly(string key) => AddedOnly.Contains(key.Split('/')[0]);

    /// <summary>A number in a key: in the order of their keys lines are in the order of their numbers.</summary>
    internal static string Place(int number) => number.ToString("0000000000", CultureInfo.InvariantCulture);

    /// <summary>What keys of lines mean.</summary>
    /// <param name="keys">The keys.</param>
    /// <returns>The rows that they tell apart.</returns>
    /// <exception cref="FormatException">A key is none of a row.</exception>
    public static RowKeys Rows(IEnumerable<string> keys)
    {
        ILookup<string, string[]> kinds = keys.Select(k => k.Split('/')).ToLookup(k => k[0]);
        return new()
        {
            Cards = [.. Of(ArchiveKinds.Cards).Select(Id)],
            Engines = [.. Of(ArchiveKinds.Engines).Select(Id)],
            Jobs = [.. Of(ArchiveKinds.Jobs).Select(Id)],
            Facts = [.. Of(ArchiveKinds.Facts).Select(k => (Id(k), Number(k[2])))],
            Promises = [.. Of(ArchiveKinds.Promises).Select(Id)],
            Ledger = [.. Of(ArchiveKinds.Ledger).Select(k => Number(k[1]))],
            Settings = [.. Of(ArchiveKinds.Settings).Select(k => Number(k[1]))],
            Feels = [.. Of(ArchiveKinds.Feels).Select(k => (Id(k), Number(k[2])))],
            Counts = Of(ArchiveKinds.Counts).Any(),
        };

        IEnumerable<string[]> Of<T>(ArchiveKind<T> kind) => kinds[NameOf(kind)];
        Guid Id(string[] key) => Guid.Parse(key[1], CultureInfo.InvariantCulture);
        int Number(string place) => int.Parse(place, CultureInfo.InvariantCulture);
    }

    /// <summary>An engine goes with its jobs; the drawer's entries that its jobs made stay without them.</summary>
    private static IEnumerable<KeptLine> Removal(Guid engine, BenchContents before)
    {
        BenchContents alone = before.Alone(engine);
        HashSet<Guid> jobs = [.. alone.Jobs.Select(j => j.Id)];
        IEnumerable<string> keys =
        [
            .. alone.Cards.Where(c => before.Engines.Count(e => e.CardId == c.Id) == 1).Select(c => Key(ArchiveKinds.Cards, c.Id.ToString())),
            .. alone.Engines.Select(e => Key(ArchiveKinds.Engines, e.Id.ToString())),
            .. alone.Jobs.SelectMany(j => new[] { Key(ArchiveKinds.Jobs, j.Id.ToString()), Key(ArchiveKinds.Promises, j.Id.ToString()) }),
            .. alone.Facts.Select(f => Key(ArchiveKinds.Facts, $"{f.Job}/{Place(f.Number)}")),
        ];
        IEnumerable<LedgerEntry> freed = before.Ledger.Where(l => l.Job is { } job && jobs.Contains(job)).Select(l => l with { Job = null });
        return keys.Select(k => new KeptLine(k, null))
            .Concat(Lines(ArchiveKinds.Ledger, freed, r => Place(r.Number)).Select(l => l with { IsQuiet = true }))
            .Append(new($"{Removed}/{engine}", engine.ToString()));
    }

    private static KeptPromises Promises(KeptLine line) => ArchivePromise.Together(
        Guid.Parse(line.Key.Split('/')[1], CultureInfo.InvariantCulture),
        line.Line!.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => Row(l, line.Key, ArchiveKinds.Promises.Row)));

    private static IEnumerable<KeptLine> Lines<T>(ArchiveKind<T> kind, IEnumerable<T> rows, Func<T, string> id) => rows.Select(r => new KeptLine(Key(kind, id(r)), Text(r, kind.Row)));

    private static string Key<T>(ArchiveKind<T> kind, string id) => $"{NameOf(kind)}/{id}";

    private static string NameOf<T>(ArchiveKind<T> kind) => Path.GetFileNameWithoutExtension(kind.File);

    private static string Text<T>(T row, JsonTypeInfo<T> type) => JsonSerializer.Serialize(row, type);

    private static T Row<T>(string line, string key, JsonTypeInfo<T> type)
    {
        try
        {
            return JsonSerializer.Deserialize(line, type) ?? throw new JsonException("null");
        }
        catch (Exception e) when (e is JsonException or FormatException or ArgumentException or InvalidOperationException)
        {
            throw new FormatException($"{key} is no row of a bench: {e.Message}", e);
        }
    }
}
