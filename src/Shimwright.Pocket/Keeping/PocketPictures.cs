using System.Globalization;
using System.Runtime.InteropServices.JavaScript;
using Shimwright.Bench;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Photos;

namespace Shimwright.Pocket.Keeping;

/// <summary>Pictures stay in the browser's database until somebody looks at them: a phone's memory is small.</summary>
internal sealed class PocketPictures(IBench bench, TimeProvider time) : IPictures
{
    private const string OfNoJob = "none", OfAny = "";

    /// <inheritdoc/>
    public async Task AddAsync(Guid id, Guid? job, Picture picture, CancellationToken cancel = default)
    {
        PictureRules.Check(id, picture);
        if (job is { } of && await bench.Jobs.FindAsync(of, cancel) is null)
        {
            throw PictureRules.NoJob(of);
        }

        await PutAsync(new(id, job, time.GetUtcNow().UtcDateTime, picture.ContentType, picture.Width, picture.Height, picture.Content, picture.Thumb));
    }

    /// <inheritdoc/>
    public async Task<Picture?> FindAsync(Guid id, Guid? job, CancellationToken cancel = default) =>
        await FindAsync(id) is { } row && row.Job == job ? new(row.ContentType, row.Width, row.Height, row.Content, row.Thumb) : null;

    /// <inheritdoc/>
    public async Task<IReadOnlyList<PictureSize>> OfJobAsync(Guid job, CancellationToken cancel = default) =>
        [.. Rows(await BrowserStore.PicturesAsync(job.ToString())).Select(r => new PictureSize(r.Id, r.Width, r.Height))];

    /// <summary>All of them with their content.</summary>
    public static async Task<IReadOnlyList<KeptPicture>> AllAsync()
    {
        List<KeptPicture> all = [];
        foreach (KeptPicture row in Rows(await BrowserStore.PicturesAsync(OfAny)))
        {
            if (await FindAsync(row.Id) is { } picture)
            {
                all.Add(picture);
            }
        }

        return all;
    }

    /// <summary>The rows of all of them, without their content.</summary>
    public static async Task<IReadOnlyList<KeptPicture>> RowsAsync() => [.. Rows(await BrowserStore.PicturesAsync(OfAny))];

    /// <summary>One with its content, or null.</summary>
    public static Task<KeptPicture?> WholeAsync(Guid id) => FindAsync(id);

    /// <summary>Adds a picture unless it is there.</summary>
    public static Task PutAsync(KeptPicture row) => BrowserStore.PutPictureAsync(row.Id.ToString(), row.Job?.ToString() ?? OfNoJob, Line(row), row.Content, row.Thumb);

    private static async Task<KeptPicture?> FindAsync(Guid id)
    {
        using JSObject? found = await BrowserStore.PictureAsync(id.ToString());
        return found is null ? null : Row(found.GetPropertyAsString("row")!) with { Content = found.GetPropertyAsByteArray("content")!, Thumb = found.GetPropertyAsByteArray("thumb")! };
    }

    private static string Line(KeptPicture row) => string.Create(CultureInfo.InvariantCulture, $"{row.Id} {row.Job?.ToString() ?? OfNoJob} {row.At:O} {row.ContentType} {row.Width} {row.Height}");

    private static KeptPicture Row(string line)
    {
        string[] parts = line.Split(' ');
        return new(
            Guid.Parse(parts[0]), parts[1] == OfNoJob ? null : Guid.Parse(parts[1]), DateTime.Parse(parts[2], CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind),
            parts[3], int.Parse(parts[4], CultureInfo.InvariantCulture), int.Parse(parts[5], CultureInfo.InvariantCulture), [], []);
    }

    private static IEnumerable<KeptPicture> Rows(string lines) => lines.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Row).OrderBy(r => r.At).ThenBy(r => r.Id);
}
