using Shimwright.Bench;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Jobs.Photos;

/// <summary>The photos of a job for whoever shows them.</summary>
internal static class PhotoList
{
    /// <summary>Those whose picture is there: a fact may come from elsewhere without it.</summary>
    public static async Task<IReadOnlyList<PhotoKept>> OfAsync(IBench bench, StoredJob job)
    {
        HashSet<Guid> kept = [.. (await bench.Pictures.OfJobAsync(job.Summary.Id)).Select(p => p.Id)];
        return [.. job.Sheet.Photos.Where(p => kept.Contains(p.Photo))];
    }

    public static string Address(Guid job, PhotoKept photo) => $"/jobs/{job}/photos/{photo.Photo}";

    public static string Words(PhotoKept photo) => photo.Caption.Length > 0 ? $"{PhotoWords.Title(photo.Shows)}: {photo.Caption}" : PhotoWords.Title(photo.Shows);
}
