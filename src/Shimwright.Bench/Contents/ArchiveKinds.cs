using System.Text.Json.Serialization.Metadata;
using Shimwright.Bench.Drawer;

namespace Shimwright.Bench.Contents;

/// <summary>A file of an archive.</summary>
/// <param name="File">Its name.</param>
/// <param name="Row">What a line of it is.</param>
/// <param name="Since">The edition since which it is there; in older archives it is empty.</param>
internal sealed record ArchiveKind<T>(string File, JsonTypeInfo<T> Row, int Since = 1);

/// <summary>The files of an archive, for whoever writes, reads or describes them.</summary>
internal static class ArchiveKinds
{
    public static ArchiveKind<KeptCard> Cards { get; } = new("cards.jsonl", ArchiveContext.Default.KeptCard);

    public static ArchiveKind<KeptEngine> Engines { get; } = new("engines.jsonl", ArchiveContext.Default.KeptEngine);

    public static ArchiveKind<KeptJob> Jobs { get; } = new("jobs.jsonl", ArchiveContext.Default.KeptJob);

    public static ArchiveKind<KeptFact> Facts { get; } = new("facts.jsonl", ArchiveContext.Default.KeptFact);

    public static ArchiveKind<ArchivePromise> Promises { get; } = new("promises.jsonl", ArchiveContext.Default.ArchivePromise);

    public static ArchiveKind<LedgerEntry> Ledger { get; } = new("ledger.jsonl", ArchiveContext.Default.LedgerEntry);

    public static ArchiveKind<KeptSettings> Settings { get; } = new("settings.jsonl", ArchiveContext.Default.KeptSettings);

    public static ArchiveKind<KeptFeel> Feels { get; } = new("feels.jsonl", ArchiveContext.Default.KeptFeel);

    public static ArchiveKind<KeptCount> Counts { get; } = new("counts.jsonl", ArchiveContext.Default.KeptCount, Since: 2);

    public static ArchiveKind<KeptPicture> Pictures { get; } = new("pictures.jsonl", ArchiveContext.Default.KeptPicture, Since: 2);
}
