using Shimwright.Bench.Contents;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.InMemory;

/// <summary>The books of trials of a bench in memory.</summary>
internal sealed class MemoryFeel(MemoryState state) : IFeel
{
    /// <inheritdoc/>
    public Task<IReadOnlyList<StoredFeel>> ListAsync(CancellationToken cancel = default) =>
        state.DoAsync(() => FeelRules.Sorted(state.Feels.Select(f => new StoredFeel(f.Key, BookOf(f.Value)))), cancel);

    /// <inheritdoc/>
    public Task<StoredFeel?> FindAsync(Guid id, CancellationToken cancel = default) =>
        state.DoAsync(() => state.Feels.TryGetValue(id, out List<KeptFeel>? rows) ? new StoredFeel(id, BookOf(rows)) : null, cancel);

    /// <inheritdoc/>
    public Task<int?> NumberOfAsync(Guid id, Guid action, CancellationToken cancel = default) =>
        state.DoAsync(() => state.Feels.GetValueOrDefault(id)?.Find(r => r.Action == action)?.Number, cancel);

    /// <inheritdoc/>
    public Task<Guid?> ActionOfAsync(Guid id, int number, CancellationToken cancel = default) =>
        state.DoAsync(() => state.Feels.GetValueOrDefault(id)?.Find(r => r.Number == number)?.Action, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobProblem>> AddAsync(Guid id, Guid action, string device, FeelEntry entry, CancellationToken cancel = default) => state.DoAsync(
        IReadOnlyList<JobProblem> () =>
        {
            FeelEntry kept = FeelRules.Kept(entry, device);
            IReadOnlyList<KeptFeel> rows = state.Feels.GetValueOrDefault(id) ?? [];
            if (rows.Any(r => r.Action == action))
            {
                return [];
            }

            FeelBook book = BookOf(rows);
            IReadOnlyList<JobProblem> problems = FeelRules.ProblemsOf(book, kept);
            if (problems.Count == 0)
            {
                state.Change(new() { Feels = [new(id, book.Last + 1, action, device, state.Now, kept.ToJson())] });
            }

            return problems;
        },
        cancel);

    private static FeelBook BookOf(IEnumerable<KeptFeel> rows) => new(rows.Select(r => FeelEntry.Read(r.Entry)));
}
