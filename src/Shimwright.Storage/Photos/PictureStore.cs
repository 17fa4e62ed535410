using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Photos;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Photos;

/// <summary>Pictures.</summary>
internal sealed class PictureStore(Func<BenchContext> open, TimeProvider time) : IPictures
{
    /// <inheritdoc/>
    public async Task AddAsync(Guid id, Guid? job, Picture picture, CancellationToken cancel = default)
    {
        PictureRules.Check(id, picture);
        await using BenchContext context = open();
        if (await context.Pictures.AnyAsync(p => p.Id == id, cancel))
        {
            return;
        }

        context.Pictures.Add(new PictureRow
        {
            Id = id,
            JobId = job,
            At = time.GetUtcNow().UtcDateTime,
            ContentType = picture.ContentType,
            Width = picture.Width,
            Height = picture.Height,
            Content = picture.Content,
            Thumb = picture.Thumb,
        });
        try
        {
            await context.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException)
        {
            await using BenchContext again = open();
            if (job is { } of && !await again.Jobs.AnyAsync(j => j.Id == of, cancel))
            {
                throw PictureRules.NoJob(of);
            }

            // Sent twice at once, the other was first.
            if (!await again.Pictures.AnyAsync(p => p.Id == id, cancel))
            {
                throw;
            }
        }
    }

    /// <inheritdoc/>
    public async Task<Picture?> FindAsync(Guid id, Guid? job, CancellationToken cancel = default)
    {
        await using BenchContext context = open();
        return await context.Pictures.AsNoTracking().FirstOrDefaultAsync(p => p.Id == id && p.JobId == job, cancel) is { } row
            ? new(row.ContentType, row.Width, row.Height, row.Content, row.Thumb)
            : null;
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<PictureSize>> OfJobAsync(Guid job, CancellationToken cancel = default)
    {
        await using BenchContext context = open();
        var rows = await context.Pictures.AsNoTracking().Where(p => p.JobId == job).OrderBy(p => p.At).ThenBy(p => p.Id).Select(p => new { p.Id, p.Width, p.Height }).ToListAsync(cancel);
        return [.. rows.Select(p => new PictureSize(p.Id, p.Width, p.Height))];
    }
}
