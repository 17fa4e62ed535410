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
                    KeptCard row = new(state.NewId(), name, named, details.ToJson(), 1, now);
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
                    Version = known.Version + 1,
                    ChangedAt = state.Now,
                };
                state.Change(new() { Cards = [changed], Engines = [engine.Row with { Name = name, Notes = PlainText.Of(notes), Owner = kept.Owner, Frame = kept.Frame, Version = engine.Row.Version + 1 }] });
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
                NamedCard.Kept(card.Row.Card, row.Name), card.Details, new(row.Owner, row.Frame));
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
    public Task<IReadOnlyList<EngineSummary>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default) => state.DoAsync(
        IReadOnlyList<EngineSummary> () =>
        {
            MemoryEngine[] found = [.. Found(search).OrderBy(e => e.Search, SearchText.Order).ThenBy(e => e.Row.Id).Skip(skip).Take(take)];
            ILookup<Guid, KeptJob> jobs = state.Jobs.Values.Select(j => j.Row).ToLookup(j => j.EngineId);
            return
            [
                .. found.Select(e => new EngineSummary(
                    e.Row.Id, e.Row.Name, e.Row.CardId, state.Cards[e.Row.CardId].Row.Title, jobs[e.Row.Id].Count(j => j.ClosedAt is null),
                    jobs[e.Row.Id].Select(j => (double?)j.Clock).Max())),
            ];
        },
        cancel);

    /// <inheritdoc/>
    public Task<int> CountAsync(string? search, CancellationToken cancel = default) => state.DoAsync(() => Found(search).Count(), cancel);

    private IEnumerable<MemoryEngine> Found(string? search)
    {
        string text = SearchText.Of(search ?? "");
        return state.Engines.Values.Where(e => e.Search.Contains(text, StringComparison.Ordinal));
    }
}
