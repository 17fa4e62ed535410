using Shimwright.Bench.Engines;
using Shimwright.Bench.InStep;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Following;

/// <summary>Engines, what is done to them remembered.</summary>
internal sealed class FollowedEngines(Follower follower, IBench bench) : IEngines
{
    private readonly IEngines _inner = bench.Engines;

    /// <inheritdoc/>
    public Task AddAsync(Guid id, string name, EngineCard card, CardDetails details, string notes = "", EnginePapers? papers = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(details);
        return DoAsync(
            at => new EngineAdded(Guid.NewGuid(), at, id, name, card.Json, details.ToJson(), notes, papers?.Owner ?? "", papers?.Frame ?? ""),
            async () =>
            {
                await _inner.AddAsync(id, name, card, details, notes, papers, cancel);
                return true;
            });
    }

    /// <inheritdoc/>
    public Task AddSharingAsync(Guid id, string name, Guid cardId, CancellationToken cancel = default) => DoAsync(
        at => new EngineShared(Guid.NewGuid(), at, id, name, cardId),
        async () =>
        {
            await _inner.AddSharingAsync(id, name, cardId, cancel);
            return true;
        });

    /// <inheritdoc/>
    public Task<SaveOutcome> SaveAsync(
        (Guid Id, int Version, int CardVersion) seen, string name, EngineCard card, CardDetails details, string notes,
        EnginePapers? papers = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(details);
        return follower.DoAsync(
            async at => new EngineSaved(
                Guid.NewGuid(), at, seen.Id,
                new(Follower.Shared(seen.Version), Follower.Own(seen.Version), (await _inner.FindAsync(seen.Id, cancel))?.CardId ?? Guid.Empty, Follower.Shared(seen.CardVersion), Follower.Own(seen.CardVersion)),
                name, card.Json, details.ToJson(), notes, papers?.Owner, papers?.Frame),
            () => _inner.SaveAsync(seen, name, card, details, notes, papers, cancel));
    }

    /// <inheritdoc/>
    public Task<StoredEngine?> FindAsync(Guid id, CancellationToken cancel = default) => _inner.FindAsync(id, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobProblem>> RemoveAsync(Guid id, string typed, CancellationToken cancel = default) =>
        DoAsync(at => new EngineRemoved(Guid.NewGuid(), at, id, typed), () => _inner.RemoveAsync(id, typed, cancel));

    /// <inheritdoc/>
    public Task<bool> RetireAsync(Guid id, bool isRetired, CancellationToken cancel = default) =>
        DoAsync(at => new EngineRetired(Guid.NewGuid(), at, id, isRetired), () => _inner.RetireAsync(id, isRetired, cancel));

    /// <inheritdoc/>
    public Task<IReadOnlyList<EngineSummary>> RetiredAsync(string? search, int skip, int take, CancellationToken cancel = default) => _inner.RetiredAsync(search, skip, take, cancel);

    /// <inheritdoc/>
    public Task<int> CountRetiredAsync(string? search, CancellationToken cancel = default) => _inner.CountRetiredAsync(search, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<EngineSummary>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default) => _inner.ListAsync(search, skip, take, cancel);

    /// <inheritdoc/>
    public Task<int> CountAsync(string? search, CancellationToken cancel = default) => _inner.CountAsync(search, cancel);

    private Task<T> DoAsync<T>(Func<DateTime, Deed> deed, Func<Task<T>> work) => follower.DoAsync(at => Task.FromResult<Deed?>(deed(at)), work);
}
