using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Members;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.FeelCalibration;

/// <summary>
/// The books of trials of those who work at the bench; entries are added, never changed and never taken away. They stand apart from
/// the settings, so that a trial neither makes a settings page that is open elsewhere out of date nor copies every other trial.
/// </summary>
internal sealed class FeelStore : IFeel
{
    /// <summary>How often an entry looks for a number of its own where others write at the same time.</summary>
    private const int MostTries = 20;

    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;

    internal FeelStore(Func<BenchContext> open, TimeProvider time)
    {
        _open = open;
        _time = time;
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<StoredFeel>> ListAsync(CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        List<FeelRow> rows = await context.Feels.AsNoTracking().OrderBy(f => f.PersonId).ThenBy(f => f.Number).ToListAsync(cancel);
        return FeelRules.Sorted(rows.GroupBy(f => f.PersonId).Select(Book));
    }

    /// <inheritdoc/>
    public async Task<StoredFeel?> FindAsync(Guid id, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        List<FeelRow> rows = await RowsOf(context, id, cancel);
        return rows.Count == 0 ? null : new(id, BookOf(rows));
    }

    /// <inheritdoc/>
    public async Task<int?> NumberOfAsync(Guid id, Guid action, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await context.Feels.Where(f => f.PersonId == id && f.Action == action).Select(f => (int?)f.Number).FirstOrDefaultAsync(cancel);
    }

    /// <inheritdoc/>
    public async Task<Guid?> ActionOfAsync(Guid id, int number, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await context.Feels.Where(f => f.PersonId == id && f.Number == number).Select(f => (Guid?)f.Action).FirstOrDefaultAsync(cancel);
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<JobProblem>> AddAsync(Guid id, Guid action, string device, FeelEntry entry, CancellationToken cancel = default)
    {
        FeelEntry plain = FeelRules.Kept(entry, device);
        for (int tries = 1; ; tries++)
        {
            await using BenchContext context = _open();
            List<FeelRow> rows = await RowsOf(context, id, cancel);
            if (rows.Any(r => r.Action == action))
            {
                return [];
            }

            FeelBook book = BookOf(rows);
            IReadOnlyList<JobProblem> problems = FeelRules.ProblemsOf(book, plain);
            if (problems.Count > 0)
            {
                return problems;
            }

            context.Feels.Add(new FeelRow { PersonId = id, Number = book.Last + 1, Action = action, Device = device, At = _time.GetUtcNow().UtcDateTime, Entry = plain.ToJson() });
            try
            {
                await context.SaveChangesAsync(cancel);
                return [];
            }
            catch (DbUpdateException) when (tries < MostTries)
            {
                // The number was taken in between: look again.
            }
        }
    }

    private static Task<List<FeelRow>> RowsOf(BenchContext context, Guid id, CancellationToken cancel) =>
        context.Feels.AsNoTracking().Where(f => f.PersonId == id).OrderBy(f => f.Number).ToListAsync(cancel);

    private static StoredFeel Book(IGrouping<Guid, FeelRow> rows) => new(rows.Key, BookOf(rows));

    private static FeelBook BookOf(IEnumerable<FeelRow> rows) => new(rows.Select(r => FeelEntry.Read(r.Entry)));
}
