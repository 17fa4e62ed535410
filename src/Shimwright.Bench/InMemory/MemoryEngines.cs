using Shimwright.Bench.Contents;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.InMemory;

/// <summary>The engines of a bench in memory.</summary>
internal sealed class MemoryEngines(MemoryState state) : IEngines
{
    /// <inheritdoc/>
    public Task AddAsync(Guid id, string name, EngineCard card, CardDetails details, string notes = "", EnginePapers? papers = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(details);
        return state.DoAsync(
            () =>
            {
                string named = NamedCard.Kept(card.Json, name).Json;
                EnginePapers kept = EnginePapers.Kept(papers, EnginePapers.Blank);
                if (!state.Engines.ContainsKey(id))
                {
                    DateTime now = state.Now;
                    // The same id on every bench that is told of it; an engine that was there before may have left its card to another.
                    KeptCard row = new(state.Cards.ContainsKey(id) ? state.NewId() : id, name, named, details.ToJson(), 1, now);
                    state.Change(new() { Cards = [row], Engines = [new(id, row.Id, name, PlainText.Of(notes), null, 0, 1, now) { Owner = kept.Owner, Frame = kept.Frame }] });
                }

                return true;
            },
            cancel);
    }

    /// <inheritdoc/>
    public Task AddSharingAsync(Guid id, string name, Guid cardId, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            MemoryCard card = state.Cards.GetValueOrDefault(cardId) ?? throw new ArgumentException($"There is no card {cardId}.", nameof(cardId));
            _ = NamedCard.Kept(card.Row.Card, name);
            if (!state.Engines.ContainsKey(id))
            {
                state.Change(new() { Engines = [new(id, cardId, name, "", null, 0, 1, state.Now)] });
            }

            return true;
        },
        cancel);

    /// <inheritdoc/>
    public Task<SaveOutcome> SaveAsync(
        (Guid Id, int Version, int CardVersion) seen, string name, EngineCard card, CardDetails details, string notes,
        EnginePapers? papers = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(details);
        return state.DoAsync(
            () =>
            {
                if (!state.Engines.TryGetValue(seen.Id, out MemoryEngine? engine))
                {
                    return SaveOutcome.NoSuchEngine;
                }

                KeptCard known = state.Cards[engine.Row.CardId].Row;
                if (engine.Row.Version != seen.Version || known.Version != seen.CardVersion)
                {
                    return SaveOutcome.ChangedMeanwhile;
                }

                EnginePapers kept = EnginePapers.Kept(papers, new(engine.Row.Owner, engine.Row.Frame));
                KeptCard changed = known with
                {
                    Card = NamedCard.Kept(card.Json, name).Json,
                    Details = details.ToJson(),
                    Version = known.Version + state.Leap,
                    ChangedAt = state.Now,
                };
                state.Change(new() { Cards = [changed], Engines = [engine.Row with { Name = name, Notes = PlainText.Of(notes), Owner = kept.Owner, Frame = kept.Frame, Version = engine.Row.Version + state.Leap }] });
                return SaveOutcome.Saved;
            },
            cancel);
    }

    /// <inheritdoc/>
    public Task<StoredEngine?> FindAsync(Guid id, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            if (!state.Engines.TryGetValue(id, out MemoryEngine? engine))
            {
                return null;
            }

            (KeptEngine row, MemoryCard card) = (engine.Row, state.Cards[engine.Row.CardId]);
            return new StoredEngine(
                id, row.Name, row.Notes, row.Version, row.CardId, card.Row.Title, card.Row.Version, state.Engines.Values.Count(e => e.Row.CardId == row.CardId),
                NamedCard.Kept(card.Row.Card, row.Name), card.Details, new(row.Owner, row.Frame), row.RetiredAt);
        },
        cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobProblem>> RemoveAsync(Guid id, string typed, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            IReadOnlyList<JobProblem> problems = RemovalRules.ProblemsOf(state.Engines.GetValueOrDefault(id)?.Row.Name, typed);
            if (problems.Count == 0)
            {
                state.Change(new() { Removed = [id] });
            }

            return problems;
        },
        cancel);

    /// <inheritdoc/>
    public Task<bool> RetireAsync(Guid id, bool isRetired, CancellationToken cancel = default) => state.DoAsync(
        () =>
        {
            if (state.Engines.GetValueOrDefault(id)?.Row is not { } row)
            {
                return false;
            }

            if (row.RetiredAt is not null != isRetired)
            {
                state.Change(new() { Engines = [row with { RetiredAt = isRetired ? state.Now : null, Version = row.Version + state.Leap }] });
            }

            return true;
        },
        cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<EngineSummary>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default) =>
        state.DoAsync(() => List(search, retired: false, skip, take), cancel);

    /// <inheritdoc/>
    public Task<int> CountAsync(string? search, CancellationToken cancel = default) => state.DoAsync(() => Found(search, retired: false).Count(), cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<EngineSummary>> RetiredAsync(string? search, int skip, int take, CancellationToken cancel = default) =>
        state.DoAsync(() => List(search, retired: true, skip, take), cancel);

    /// <inheritdoc/>
    public Task<int> CountRetiredAsync(string? search, CancellationToken cancel = default) => state.DoAsync(() => Found(search, retired: true).Count(), cancel);

    private IReadOnlyList<EngineSummary> List(string? search, bool retired, int skip, int take)
    {
        MemoryEngine[] found = [.. Found(search, retired).OrderBy(e => e.Search, SearchText.Order).ThenBy(e => e.Row.Id).Skip(skip).Take(take)];
        ILookup<Guid, KeptJob> jobs = state.Jobs.Values.Select(j => j.Row).Where(j => j.DiscardedAt is null).ToLookup(j => j.EngineId);
        return
        [
            .. found.Select(e => new EngineSummary(
                e.Row.Id, e.Row.Name, e.Row.CardId, state.Cards[e.Row.CardId].Row.Title, jobs[e.Row.Id].Count(j => j.ClosedAt is null),
                jobs[e.Row.Id].Select(j => (double?)j.Clock).Max())),
        ];
    }

    private IEnumerable<MemoryEngine> Found(string? search, bool retired)
    {
        string text = SearchText.Of(search ?? "");
        return state.Engines.Values.Where(e => e.Row.RetiredAt is not null == retired && e.Search.Contains(text, StringComparison.Ordinal));
    }
}
