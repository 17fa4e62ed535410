using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Bench.Drawer;

namespace Shimwright.Bench.Contents;

/// <summary>What stands in an archive beside its rows.</summary>
/// <param name="Format">Always <see cref="BenchArchive.Format"/>.</param>
/// <param name="Edition">Which edition of the format.</param>
/// <param name="MadeAt">When it was made, UTC.</param>
/// <param name="Files">The files of rows.</param>
internal sealed record ArchiveManifest(string Format, int Edition, DateTime MadeAt, IReadOnlyList<ArchiveFile> Files);

/// <summary>A file of rows.</summary>
/// <param name="Name">Its name in the archive.</param>
/// <param name="Rows">How many lines it has.</param>
/// <param name="Sha256">Its checksum, hexadecimal.</param>
internal sealed record ArchiveFile(string Name, int Rows, string Sha256);

/// <summary>A size that an open job has promised of the drawer.</summary>
/// <param name="Job">The job.</param>
/// <param name="Diameter">Diameter, whole micrometres.</param>
/// <param name="Thickness">Thickness, whole micrometres.</param>
/// <param name="By">marked, calliper or micrometer.</param>
/// <param name="Count">How many.</param>
/// <param name="Fitted">How many of them are in the engine already.</param>
internal sealed record ArchivePromise(Guid Job, int Diameter, int Thickness, string By, int Count, int Fitted)
{
    /// <summary>What a job has promised, size by size.</summary>
    public static IEnumerable<ArchivePromise> Of(KeptPromises kept) =>
        kept.Promised.Select(p => new ArchivePromise(kept.Job, p.Key.Diameter, p.Key.Thickness, p.Key.By, p.Value.Count, p.Value.Fitted));

    /// <summary>All that a job has promised, of its sizes; a size that is there twice counts as it is there first.</summary>
    public static KeptPromises Together(Guid job, IEnumerable<ArchivePromise> rows) => new(
        job, rows.DistinctBy(p => p.Size).ToDictionary(p => p.Size, p => new PromisedCount(p.Count, p.Fitted)));

    private ShimSize Size => new(Diameter, Thickness, By);
}

[JsonSourceGenerationOptions(
    JsonSerializerDefaults.Web, UseStringEnumConverter = true, IgnoreReadOnlyProperties = true, RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true, NumberHandling = JsonNumberHandling.Strict, UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow)]
[JsonSerializable(typeof(ArchiveManifest))]
[JsonSerializable(typeof(KeptCard))]
[JsonSerializable(typeof(KeptEngine))]
[JsonSerializable(typeof(KeptJob))]
[JsonSerializable(typeof(KeptFact))]
[JsonSerializable(typeof(ArchivePromise))]
[JsonSerializable(typeof(LedgerEntry))]
[JsonSerializable(typeof(KeptSettings))]
[JsonSerializable(typeof(KeptFeel))]
[JsonSerializable(typeof(KeptCount))]
[JsonSerializable(typeof(KeptPicture))]
internal sealed partial class ArchiveContext : JsonSerializerContext;
