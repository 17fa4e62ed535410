using System.Globalization;
using Shimwright.Bench;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Records;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Files;

/// <summary>The files that pages offer, made from what is on the bench. Whoever shows the pages hands them out at the addresses to which their links lead.</summary>
public static class BenchFiles
{
    /// <summary>A job's file: what the commands read, so that their figures can be compared.</summary>
    /// <returns>The file, or null where there is no such job.</returns>
    public static async Task<BenchFile?> JobAsync(IBench bench, Guid job, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        return await bench.Jobs.FindAsync(job, cancel) is { } found ? new(NameOf(found), "application/json", JobSheetFile.Write(found.Sheet)) : null;
    }

    /// <summary>The whole bench as an archive.</summary>
    public static async Task<BenchFile> ArchiveAsync(IBench bench, DateTime now, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        using MemoryStream archive = new();
        BenchArchive.Write(await bench.Copies.ContentsAsync(cancel), now, archive);
        return new(string.Create(CultureInfo.InvariantCulture, $"bench-{now:yyyyMMdd-HHmm}.zip"), "application/zip", archive.ToArray());
    }

    /// <summary>One engine with its jobs as an archive.</summary>
    /// <returns>The file, or null where there is no such engine.</returns>
    public static async Task<BenchFile?> EngineAsync(IBench bench, Guid engine, DateTime now, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        BenchContents alone = (await bench.Copies.ContentsAsync(cancel)).Alone(engine);
        if (alone.IsEmpty)
        {
            return null;
        }

        using MemoryStream archive = new();
        BenchArchive.Write(alone, now, archive);
        return new("engine.zip", "application/zip", archive.ToArray());
    }

    /// <summary>The workshop's logo.</summary>
    /// <returns>The file, or null where there is none.</returns>
    public static async Task<BenchFile?> LogoAsync(IBench bench, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        return (await bench.Settings.CurrentAsync(cancel)).Settings.Workshop.Logo is { } id && await bench.Pictures.FindAsync(id, null, cancel) is { } logo
            ? new("logo", logo.ContentType, logo.Content)
            : null;
    }

    /// <summary>A photo of a job, or the same small.</summary>
    /// <returns>The file, or null where the job has no such photo.</returns>
    public static async Task<BenchFile?> PhotoAsync(IBench bench, Guid job, Guid photo, bool small, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        return await bench.Pictures.FindAsync(photo, job, cancel) is not { } found ? null
            : small ? new("photo.jpg", Picture.Jpeg, found.Thumb)
            : new("photo.jpg", found.ContentType, found.Content);
    }

    /// <summary>The record of a closed job as a PDF.</summary>
    /// <returns>The file, or null where there is no such job, or it is open.</returns>
    public static async Task<BenchFile?> RecordAsync(IBench bench, Guid job, TimeProvider time, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(bench);
        var local = LocalTimes.Of((await bench.Settings.CurrentAsync(cancel)).Settings, time);
        return await RecordDesk.WriteAsync(bench, job, local, withPictures: true, cancel) is { } paper && await bench.Jobs.FindAsync(job, cancel) is { } found
            ? new(NameOf(found, "pdf"), "application/pdf", RecordPdf.Write(paper, local.Now))
            : null;
    }

    private static string NameOf(StoredJob job, string kind = "json")
    {
        string name = new([.. job.Summary.Engine.Where(c => char.IsAsciiLetterOrDigit(c) || c is ' ' or '-').Take(40)]);
        return $"{name.Trim().Replace(' ', '-')}-{job.Summary.StartedAt:yyyyMMdd}.{kind}";
    }
}
