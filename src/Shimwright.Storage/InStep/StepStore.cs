using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.InStep;
using Shimwright.Storage.Copies;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;

namespace Shimwright.Storage.InStep;

/// <summary>What those who keep in step are told, and what they have sent.</summary>
internal sealed class StepStore(Func<BenchContext> open)
{
    public async Task<string> NameAsync(CancellationToken cancel)
    {
        await using BenchContext context = open();
        return await context.Steps.Select(s => s.Bench).SingleAsync(cancel);
    }

    public async Task<StepPart> SinceAsync(StepMark mark, int most, CancellationToken cancel)
    {
        await using BenchContext context = open();
        // One view of it all: a row that refers to another is not seen before that one.
        return await ContentsStore.InViewAsync(context, () => PartAsync(context, mark, most, cancel), cancel);
    }

    public async Task<DeedAnswer?> AnsweredAsync(Guid deed, CancellationToken cancel)
    {
        await using BenchContext context = open();
        return await context.HeardDeeds.Where(h => h.Deed == deed).Select(h => h.Answer).FirstOrDefaultAsync(cancel) is { } answer ? StepJson.ReadAnswer(answer) : null;
    }

    public async Task HearAsync(HeardDeed heard, CancellationToken cancel)
    {
        await using BenchContext context = open();
        if (await context.HeardDeeds.AnyAsync(h => h.Deed == heard.Deed, cancel))
        {
            return;
        }

        context.HeardDeeds.Add(new() { Deed = heard.Deed, Pocket = heard.Pocket, Device = heard.Device, SaidAt = heard.SaidAt, HeardAt = heard.HeardAt, Answer = StepJson.Write(heard.Answer) });
        try
        {
            await context.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException)
        {
            // Sent twice at once: what is written down already holds.
            if (await AnsweredAsync(heard.Deed, cancel) is null)
            {
                throw;
            }
        }
    }

    public async Task<IReadOnlySet<Guid>> SentByAsync(Guid pocket, IReadOnlyCollection<Guid> actions, CancellationToken cancel)
    {
        await using BenchContext context = open();
        return (await context.HeardDeeds.Where(h => h.Pocket == pocket && actions.Contains(h.Deed)).Select(h => h.Deed).ToListAsync(cancel)).ToHashSet();
    }

    public async Task<KeptPicture?> PictureAsync(Guid id, CancellationToken cancel)
    {
        await using BenchContext context = open();
        return await context.Pictures.AsNoTracking().FirstOrDefaultAsync(p => p.Id == id, cancel) is { } p
            ? new(p.Id, p.JobId, p.At, p.ContentType, p.Width, p.Height, p.Content, p.Thumb)
            : null;
    }

    private static async Task<StepPart> PartAsync(BenchContext context, StepMark mark, int most, CancellationToken cancel)
    {
        StepCountRow step = await context.Steps.AsNoTracking().SingleAsync(cancel);
        if (mark.Bench != step.Bench || mark.Last > step.Last)
        {
            mark = StepMark.None with { Bench = step.Bench };
        }

        List<ChangeRow> changed = await context.Changes.AsNoTracking().Where(c => c.At > mark.Last).OrderBy(c => c.At).ThenBy(c => c.Kind).Take(most + 1).ToListAsync(cancel);
        List<ChangeRow> part = [.. changed.Take(most)];
        // What was there before changes were counted may share a number: then it goes together.
        while (part.Count > 0 && changed.Count > part.Count && changed[part.Count].At == part[^1].At)
        {
            part.Add(changed[part.Count]);
        }

        List<LedgerEntry> ledger =
            [.. (await context.ShimMoves.AsNoTracking().Where(m => m.Number > mark.Ledger).OrderBy(m => m.Number).Take((most * StepPart.EntriesEach) + 1).ToListAsync(cancel)).Select(DrawerLedger.EntryOf)];
        List<KeptSettings> settings =
            [.. (await context.Settings.AsNoTracking().Where(s => s.Version > mark.Settings).OrderBy(s => s.Version).ToListAsync(cancel)).Select(ContentsStore.SettingsOf)];
        bool hasMore = changed.Count > part.Count || ledger.Count > most * StepPart.EntriesEach;
        ledger = [.. ledger.Take(most * StepPart.EntriesEach)];
        StepMark next = new(
            step.Bench, part.Count == 0 ? mark.Last : part[^1].At, ledger.Count == 0 ? mark.Ledger : ledger[^1].Number, settings.Count == 0 ? mark.Settings : settings[^1].Version);
        return new(next, await RowsAsync(context, part, cancel) with { Ledger = ledger, Settings = settings }, hasMore);
    }

    private static async Task<BenchContents> RowsAsync(BenchContext context, IReadOnlyList<ChangeRow> part, CancellationToken cancel)
    {
        ILookup<string, Guid> ids = part.Where(c => c.Key.Length > 0).ToLookup(c => c.Kind, c => Guid.Parse(c.Key));
        List<Guid> jobIds = [.. ids[StepModel.Job]], feelIds = [.. ids[StepModel.Feel]], pictureIds = [.. ids[StepModel.Picture]], named = [.. ids[StepModel.Engine]];
        List<JobRow> jobs = await context.Jobs.AsNoTracking().Where(j => jobIds.Contains(j.Id)).ToListAsync(cancel);
        // A job is of no use before its engine, which may have changed again since.
        List<Guid> engineIds = [.. named.Concat(jobs.Select(j => j.EngineId)).Distinct()];
        List<EngineRow> engines = await context.Engines.AsNoTracking().Where(e => engineIds.Contains(e.Id)).ToListAsync(cancel);
        List<Guid> cardIds = [.. ids[StepModel.Card].Concat(engines.Select(e => e.CardId)).Distinct()];
        List<ShimPromiseRow> promises = await context.ShimPromises.AsNoTracking().Where(p => jobIds.Contains(p.JobId)).ToListAsync(cancel);
        return new()
        {
            Removed = [.. named.Where(e => engines.All(known => known.Id != e))],
            Engines = [.. engines.Select(ContentsStore.EngineOf)],
            Cards = [.. (await context.Cards.AsNoTracking().Where(c => cardIds.Contains(c.Id)).ToListAsync(cancel)).Select(ContentsStore.CardOf)],
            Jobs = [.. jobs.Select(ContentsStore.JobOf)],
            Facts = [.. (await context.Facts.AsNoTracking().Where(f => jobIds.Contains(f.JobId)).OrderBy(f => f.JobId).ThenBy(f => f.Number).ToListAsync(cancel)).Select(ContentsStore.FactOf)],
            Promises = [.. jobs.Select(j => ContentsStore.PromisesOf(j.Id, promises.Where(p => p.JobId == j.Id)))],
            Feels = [.. (await context.Feels.AsNoTracking().Where(f => feelIds.Contains(f.PersonId)).OrderBy(f => f.PersonId).ThenBy(f => f.Number).ToListAsync(cancel)).Select(ContentsStore.FeelOf)],
            Counts = jobs.Count == 0 ? [] : [.. (await context.Counts.AsNoTracking().Where(c => c.Last > 0).ToListAsync(cancel)).Select(c => new KeptCount(c.Name, c.Last))],
            Pictures = [.. await context.Pictures.AsNoTracking().Where(p => pictureIds.Contains(p.Id)).Select(p => new KeptPicture(p.Id, p.JobId, p.At, p.ContentType, p.Width, p.Height, Array.Empty<byte>(), Array.Empty<byte>())).ToListAsync(cancel)],
        };
    }
}
