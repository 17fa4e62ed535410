using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Contents;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Copies;

/// <summary>Looks a bench over: the file's own order, the checksum of every row, and whether the rows belong together.</summary>
internal sealed class Soundness(BenchContext context, IProgress<int>? progress)
{
    private readonly List<string> _damage = [];
    private Dictionary<Guid, string> _jobs = [];
    private int _done, _withoutSum;

    /// <summary>The checksums alone; a start has asked for the order of the file before.</summary>
    public static Task<SoundReport> OfSumsAsync(BenchContext context, CancellationToken cancel) => new Soundness(context, null).SumsAsync(cancel);

    /// <summary>All there is to look at.</summary>
    public static async Task<SoundReport> WholeAsync(BenchContext context, string? file, IProgress<int>? progress, CancellationToken cancel)
    {
        Soundness look = new(context, progress);
        if (file is not null)
        {
            look._damage.AddRange(await FileOrder.DamageAsync(file, cancel));
        }

        SoundReport report = await look.SumsAsync(cancel);
        return report.IsSound ? report with { Damage = await look.RowsTogetherAsync(cancel) } : report;
    }

    private async Task<SoundReport> SumsAsync(CancellationToken cancel)
    {
        if (_damage.Count > 0)
        {
            return new(0, 0, 0, 0, 0, _damage);
        }

        await NameJobsAsync(cancel);
        await TableAsync("engine cards", context.Cards, c => $"the card \"{c.Title}\"", cancel);
        int engines = await TableAsync("engines", context.Engines, e => $"the engine \"{e.Name}\"", cancel);
        int jobs = await TableAsync("jobs", context.Jobs, j => string.Create(CultureInfo.InvariantCulture, $"the job {j.Id} of {j.StartedAt:yyyy-MM-dd}"), cancel);
        int facts = await TableAsync("facts", context.Facts, f => string.Create(CultureInfo.InvariantCulture, $"fact {f.Number} of {JobOf(f.JobId)}"), cancel);
        int entries = await TableAsync("drawer entries", context.ShimMoves, m => string.Create(CultureInfo.InvariantCulture, $"entry {m.Number} of the drawer"), cancel);
        await TableAsync("settings", context.Settings, s => string.Create(CultureInfo.InvariantCulture, $"the settings, state {s.Version}"), cancel);
        await TableAsync("trials", context.Feels, f => string.Create(CultureInfo.InvariantCulture, $"entry {f.Number} of the trials of {f.PersonId}"), cancel);
        await TableAsync("pictures", context.Pictures, p => $"the picture {p.Id}{(p.JobId is { } job ? $" of {JobOf(job)}" : "")}", cancel);
        return new(engines, jobs, facts, entries, _withoutSum, _damage);
    }

    /// <summary>Looks at every row of a table.</summary>
    /// <returns>How many there are.</returns>
    private async Task<int> TableAsync<T>(string table, IQueryable<T> rows, Func<T, string> name, CancellationToken cancel)
        where T : class, ISummed
    {
        int count = 0;
        try
        {
            await foreach (T row in rows.AsNoTracking().AsAsyncEnumerable().WithCancellation(cancel))
            {
                count++;
                progress?.Report(++_done);
                _withoutSum += row.Sum is null ? 1 : 0;
                if (!RowSum.Holds(row))
                {
                    _damage.Add($"{name(row)} is not what was written");
                }
            }
        }
        catch (Exception e) when (IsDamage(e))
        {
            _damage.Add(string.Create(CultureInfo.InvariantCulture, $"after {count} {table} comes one that cannot be read ({e.Message.TrimEnd('.')})"));
        }

        return count;
    }

    /// <summary>A job by its engine and day, for a person who looks for it.</summary>
    private string JobOf(Guid id) => _jobs.GetValueOrDefault(id) ?? $"the job {id}";

    private async Task NameJobsAsync(CancellationToken cancel)
    {
        try
        {
            _jobs = (await context.Jobs.AsNoTracking().Select(j => new { j.Id, j.Engine.Name, j.StartedAt }).ToListAsync(cancel))
                .ToDictionary(j => j.Id, j => string.Create(CultureInfo.InvariantCulture, $"the job of {j.StartedAt:yyyy-MM-dd} on \"{j.Name}\" ({j.Id})"));
        }
        catch (Exception e) when (IsDamage(e))
        {
            // Then they go by their numbers.
        }
    }

    private static bool IsDamage(Exception e) =>
        e is DbException or FormatException or InvalidCastException or InvalidOperationException or ArgumentException or OverflowException;

    private async Task<IReadOnlyList<string>> RowsTogetherAsync(CancellationToken cancel)
    {
        BenchContents contents = await ContentsStore.ReadAsync(context, cancel);
        List<string> wrong = [.. ContentRules.ProblemsOf(contents, progress).Select(p => p.ToString())];
        int last = (await context.Set<DrawerRow>().AsNoTracking().SingleAsync(cancel)).Last;
        if (last != contents.Ledger.Count)
        {
            wrong.Add(string.Create(CultureInfo.InvariantCulture, $"drawer: found {contents.Ledger.Count} entries; its count says {last}"));
        }

        Dictionary<Guid, int> facts = contents.Facts.GroupBy(f => f.Job).ToDictionary(g => g.Key, g => g.Count());
        foreach (JobRow job in await context.Jobs.AsNoTracking().ToListAsync(cancel))
        {
            if (job.Last != facts.GetValueOrDefault(job.Id))
            {
                wrong.Add(string.Create(CultureInfo.InvariantCulture, $"job {job.Id}: found {facts.GetValueOrDefault(job.Id)} facts; its count says {job.Last}"));
            }
        }

        return wrong;
    }
}
