using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Members;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Engines;

/// <summary>Engines and their cards.</summary>
internal sealed class EngineStore : IEngines
{
    private readonly Func<BenchContext> _open;
    private readonly TimeProvider _time;

    internal EngineStore(Func<BenchContext> open, TimeProvider time)
    {
        _open = open;
        _time = time;
    }

    /// <inheritdoc/>
    public async Task AddAsync(Guid id, string name, EngineCard card, CardDetails details, string notes = "", EnginePapers? papers = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(card);
        EnginePapers kept = EnginePapers.Kept(papers, EnginePapers.Blank);
        DateTime now = Now();
        CardRow row = new()
        {
            // The same id on every bench that is told of it.
            Id = id,
            Title = name,
            Card = NamedCard.Kept(card.Json, name).Json,
            Details = details.ToJson(),
            Version = 1,
            ChangedAt = now,
        };
        EngineRow engine = new() { Id = id, Card = row, Name = name, Search = SearchText.Of(name), Notes = PlainText.Of(notes), Version = 1, AddedAt = now };
        (engine.Owner, engine.Frame) = (kept.Owner, kept.Frame);
        await AddOnceAsync(engine, cancel);
    }

    /// <inheritdoc/>
    public async Task AddSharingAsync(Guid id, string name, Guid cardId, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        string card = (await context.Cards.Where(c => c.Id == cardId).Select(c => new { c.Card }).FirstOrDefaultAsync(cancel))?.Card
            ?? throw new ArgumentException($"There is no card {cardId}.", nameof(cardId));
        _ = NamedCard.Kept(card, name);
        await AddOnceAsync(new EngineRow { Id = id, CardId = cardId, Name = name, Search = SearchText.Of(name), Version = 1, AddedAt = Now() }, cancel);
    }

    /// <inheritdoc/>
    public async Task<SaveOutcome> SaveAsync(
        (Guid Id, int Version, int CardVersion) seen, string name, EngineCard card, CardDetails details, string notes,
        EnginePapers? papers = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(card);
        await using BenchContext context = _open();
        EngineRow? row = await context.Engines.Include(e => e.Card).FirstOrDefaultAsync(e => e.Id == seen.Id, cancel);
        if (row is null)
        {
            return SaveOutcome.NoSuchEngine;
        }

        if (row.Version != seen.Version || row.Card.Version != seen.CardVersion)
        {
            return SaveOutcome.ChangedMeanwhile;
        }

        EnginePapers kept = EnginePapers.Kept(papers, new(row.Owner, row.Frame));
        row.Name = name;
        row.Search = SearchText.Of(name);
        row.Notes = PlainText.Of(notes);
        (row.Owner, row.Frame) = (kept.Owner, kept.Frame);
        row.Version++;
        row.Card.Card = NamedCard.Kept(card.Json, name).Json;
        row.Card.Details = details.ToJson();
        row.Card.Version++;
        row.Card.ChangedAt = Now();
        try
        {
            await context.SaveChangesAsync(cancel);
            return SaveOutcome.Saved;
        }
        catch (DbUpdateConcurrencyException)
        {
            return SaveOutcome.ChangedMeanwhile;
        }
    }

    /// <inheritdoc/>
    public async Task<StoredEngine?> FindAsync(Guid id, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        EngineRow? row = await context.Engines.AsNoTracking().Include(e => e.Card).FirstOrDefaultAsync(e => e.Id == id, cancel);
        if (row is null)
        {
            return null;
        }

        int sharedBy = await context.Engines.CountAsync(e => e.CardId == row.CardId, cancel);
        return new(
            row.Id, row.Name, row.Notes, row.Version, row.CardId, row.Card.Title, row.Card.Version, sharedBy,
            NamedCard.Kept(row.Card.Card, row.Name), CardDetails.Read(row.Card.Details), new(row.Owner, row.Frame), row.RetiredAt);
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<JobProblem>> RemoveAsync(Guid id, string typed, CancellationToken cancel = default) => EngineRemoval.RunAsync(_open, id, typed, Now(), cancel);

    /// <inheritdoc/>
    public async Task<bool> RetireAsync(Guid id, bool isRetired, CancellationToken cancel = default)
    {
        while (true)
        {
            await using BenchContext context = _open();
            if (await context.Engines.FirstOrDefaultAsync(e => e.Id == id, cancel) is not { } row)
            {
                return false;
            }

            if (row.RetiredAt is not null == isRetired)
            {
                return true;
            }

            row.RetiredAt = isRetired ? Now() : null;
            row.Version++;
            try
            {
                await context.SaveChangesAsync(cancel);
                return true;
            }
            catch (DbUpdateConcurrencyException)
            {
                // Another device saved the engine in between: what it wrote stays, and this is said of it.
            }
        }
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<EngineSummary>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default) =>
        ListAsync(search, retired: false, skip, take, cancel);

    /// <inheritdoc/>
    public Task<int> CountAsync(string? search, CancellationToken cancel = default) => CountAsync(search, retired: false, cancel);

    /// <inheritdoc/>
    public Task<IReadOnlyList<EngineSummary>> RetiredAsync(string? search, int skip, int take, CancellationToken cancel = default) =>
        ListAsync(search, retired: true, skip, take, cancel);

    /// <inheritdoc/>
    public Task<int> CountRetiredAsync(string? search, CancellationToken cancel = default) => CountAsync(search, retired: true, cancel);

    private async Task<IReadOnlyList<EngineSummary>> ListAsync(string? search, bool retired, int skip, int take, CancellationToken cancel)
    {
        await using BenchContext context = _open();
        var rows = await Found(context, search, retired).OrderBy(e => e.Search).ThenBy(e => e.Id).Skip(skip).Take(take)
            .Select(e => new
            {
                e.Id,
                e.Name,
                e.CardId,
                e.Card.Title,
                Open = context.Jobs.Count(j => j.EngineId == e.Id && j.ClosedAt == null && j.DiscardedAt == null),
                Last = context.Jobs.Where(j => j.EngineId == e.Id && j.DiscardedAt == null).Max(j => (double?)j.Clock),
            })
            .ToListAsync(cancel);
        return [.. rows.Select(e => new EngineSummary(e.Id, e.Name, e.CardId, e.Title, e.Open, e.Last))];
    }

    private async Task<int> CountAsync(string? search, bool retired, CancellationToken cancel)
    {
        await using BenchContext context = _open();
        return await Found(context, search, retired).CountAsync(cancel);
    }

    /// <summary>Engines whose name holds a text; all where it is blank.</summary>
    internal static IQueryable<EngineRow> Found(BenchContext context, string? search, bool retired)
    {
        string text = SearchText.Of(search ?? "");
        IQueryable<EngineRow> engines = context.Engines.AsNoTracking().Where(e => e.RetiredAt != null == retired);
        return text.Length == 0 ? engines : engines.Where(e => e.Search.Contains(text));
    }

    private async Task AddOnceAsync(EngineRow row, CancellationToken cancel)
    {
        await using BenchContext context = _open();
        if (await context.Engines.AnyAsync(e => e.Id == row.Id, cancel))
        {
            return;
        }

        if (row.Card is { } card && await context.Cards.AnyAsync(c => c.Id == card.Id, cancel))
        {
            // An engine that was there before has left its card to another.
            card.Id = Guid.CreateVersion7(_time.GetUtcNow());
        }

        context.Engines.Add(row);
        try
        {
            await context.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException)
        {
            // Sent twice at once, the other was first.
            await using BenchContext again = _open();
            if (!await again.Engines.AnyAsync(e => e.Id == row.Id, cancel))
            {
                throw;
            }
        }
    }

    private DateTime Now() => _time.GetUtcNow().UtcDateTime;
}
