using Shimwright.Bench;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Records;

/// <summary>Gathers what belongs in a record.</summary>
internal static class RecordDesk
{
    /// <summary>More rounds than anybody works one after the other.</summary>
    private const int MostRounds = 10;

    /// <summary>The record of a job.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="id">The job.</param>
    /// <param name="local">The bench's days.</param>
    /// <param name="withPictures">Whether the pictures themselves are wanted, and not only their addresses.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The record; null where there is no such job, or it is open.</returns>
    public static async Task<RecordPaper?> WriteAsync(IBench bench, Guid id, LocalTimes local, bool withPictures, CancellationToken cancel)
    {
        if (await bench.Jobs.FindAsync(id, cancel) is not { Record: { } record } job)
        {
            return null;
        }

        BenchSettings settings = (await bench.Settings.CurrentAsync(cancel)).Settings;
        EnginePapers papers = (await bench.Engines.FindAsync(job.Summary.EngineId, cancel))?.Papers ?? EnginePapers.Blank;
        return RecordPaper.Of(new(
            job, record, papers, settings.Workshop, await LogoAsync(bench, settings, withPictures, cancel), await EarlierAsync(bench, job, cancel),
            await ForecastAsync(bench, job, record, cancel), await PhotosAsync(bench, job, withPictures, cancel), LengthStyle.Of(settings), local));
    }

    /// <summary>What is to come is said by the last record of an engine only: an older one is history.</summary>
    private static async Task<KeptForecast?> ForecastAsync(IBench bench, StoredJob job, JobRecord record, CancellationToken cancel) =>
        await bench.Due.FindAsync(job.Summary.EngineId, cancel) is { } forecast && forecast.Clock == record.CheckClock ? forecast : null;

    private static async Task<RecordPicture?> LogoAsync(IBench bench, BenchSettings settings, bool withPictures, CancellationToken cancel) =>
        settings.Workshop.Logo is not { } logo ? null
        : !withPictures ? new($"/settings/workshop/logo?is={logo}", null)
        : await bench.Pictures.FindAsync(logo, null, cancel) is { } kept ? new("", kept)
        : null;

    private static async Task<IReadOnlyList<StoredJob>> EarlierAsync(IBench bench, StoredJob job, CancellationToken cancel)
    {
        List<StoredJob> earlier = [];
        for (Guid? before = job.Follows; before is { } id && earlier.Count < MostRounds && await bench.Jobs.FindAsync(id, cancel) is { } found; before = found.Follows)
        {
            earlier.Insert(0, found);
        }

        return earlier;
    }

    private static async Task<IReadOnlyList<RecordPhoto>> PhotosAsync(IBench bench, StoredJob job, bool withPictures, CancellationToken cancel)
    {
        HashSet<Guid> kept = [.. (await bench.Pictures.OfJobAsync(job.Summary.Id, cancel)).Select(p => p.Id)];
        List<RecordPhoto> photos = [];
        foreach (PhotoKept photo in job.Sheet.Photos.Where(p => p.InRecord && !p.Removed && kept.Contains(p.Photo)))
        {
            Picture? picture = withPictures ? await bench.Pictures.FindAsync(photo.Photo, job.Summary.Id, cancel) : null;
            photos.Add(new(
                new($"/jobs/{job.Summary.Id}/photos/{photo.Photo}", picture),
                photo.Caption.Length > 0 ? $"{PhotoWords.Title(photo.Shows)}: {photo.Caption}" : PhotoWords.Title(photo.Shows)));
        }

        return photos;
    }
}
