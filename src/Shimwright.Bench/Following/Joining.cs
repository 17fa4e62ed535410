using System.Text.Json;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.InStep;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;

namespace Shimwright.Bench.Following;

/// <summary>What a bench holds, told as what was done there.</summary>
internal static class Joining
{
    /// <summary>The deeds, in the order in which they can be done.</summary>
    /// <param name="here">What is held; of pictures all but the picture.</param>
    /// <param name="now">The time, UTC.</param>
    public static IEnumerable<Deed> Deeds(BenchContents here, DateTime now)
    {
        ILookup<Guid, KeptFact> facts = here.Facts.ToLookup(f => f.Job);
        IEnumerable<Deed> work = [.. here.Jobs.SelectMany(j => OfJob(j, [.. facts[j.Id].OrderBy(f => f.Number)])), .. OfDrawer(here.Ledger), .. here.Pictures.Select(p => new PictureAdded(p.Id, p.At, p with { Content = [], Thumb = [] }))];
        return
        [
            .. OfEngines(here, now),
            // A picture before what is said of it, a start before what comes after it: the sort keeps the order of what is equal.
            .. work.OrderBy(d => d.At).ThenBy(d => d is JobStarted ? 0 : d is PictureAdded ? 1 : 2),
            .. OfFeels(here.Feels),
            .. here.Settings.TakeLast(1).Select(s => new SettingsSaved(Guid.NewGuid(), s.At, 0, 0, s.Settings)),
            .. here.Engines.Where(e => e.RetiredAt is not null).Select(e => new EngineRetired(Guid.NewGuid(), e.RetiredAt!.Value, e.Id, true)),
        ];
    }

    private static IEnumerable<Deed> OfEngines(BenchContents here, DateTime now)
    {
        foreach (KeptCard card in here.Cards)
        {
            KeptEngine[] engines = [.. here.Engines.Where(e => e.CardId == card.Id).OrderBy(e => e.Id == card.Id ? 0 : 1).ThenBy(e => e.AddedAt)];
            // An engine brings its card where the card has its id; else each brings its own.
            bool isShared = engines.Length > 1 && engines[0].Id == card.Id;
            foreach ((KeptEngine engine, int place) in engines.Select((e, i) => (e, i)))
            {
                yield return isShared && place > 0 ? new EngineShared(Guid.NewGuid(), engine.AddedAt, engine.Id, engine.Name, card.Id)
                    : new EngineAdded(Guid.NewGuid(), engine.AddedAt, engine.Id, engine.Name, card.Card, card.Details, engine.Notes, engine.Owner, engine.Frame);
                if (engine.PerWeek is { } week)
                {
                    yield return new UsageStated(Guid.NewGuid(), now, engine.Id, null, week);
                }
            }
        }
    }

    private static IEnumerable<Deed> OfJob(KeptJob job, KeptFact[] facts)
    {
        yield return new JobStarted(job.Id, job.StartedAt, job.EngineId, job.Setup, job.Past, [.. facts.Where(f => f.Action == job.Action).Select(f => JsonElement.Parse(f.Fact))]);
        ILookup<Guid, int> numbers = facts.ToLookup(f => f.Action, f => f.Number);
        foreach (IGrouping<Guid, KeptFact> action in facts.Where(f => f.Action != job.Action).GroupBy(f => f.Action))
        {
            yield return new FactsAdded(action.Key, action.First().At, job.Id, 0, [.. action.Select(f => JsonElement.Parse(FactJson.Write(Sent(FactJson.Read(f.Fact), numbers, job))))]);
        }
    }

    private static JobFact Sent(JobFact fact, ILookup<Guid, int> numbers, KeptJob job) => fact is not Undone undone ? fact : undone with
    {
        Entry = undone.Entry is { } entry ? 1 + numbers[undone.Action].TakeWhile(n => n != entry).Count() : null,
        // A job of an older program has another id than the action that started it.
        Action = undone.Action == job.Action ? job.Id : undone.Action,
    };

    private static IEnumerable<Deed> OfDrawer(IReadOnlyList<LedgerEntry> ledger)
    {
        Dictionary<ShimSize, int> counts = [];
        foreach (IGrouping<Guid, LedgerEntry> action in ledger.GroupBy(e => e.Action))
        {
            foreach (LedgerEntry entry in action)
            {
                counts[entry.Size] = counts.GetValueOrDefault(entry.Size) + entry.Change;
            }

            LedgerEntry first = action.First();
            Deed? deed = first switch
            {
                { IsOfJob: true } => null,
                { Reason: ShimReason.Bought } => new ShimsPutIn(action.Key, first.At, new(first.Size, first.Change, first.Place, first.Price)),
                { Reason: ShimReason.Stocktake } => new ShimsCounted(action.Key, first.At, [.. action.Select(e => new ShimCount(e.Size, Math.Max(0, counts[e.Size]), e.Place, e.Price))], 0),
                { Reason: ShimReason.Measured } when action.FirstOrDefault(e => e.Change > 0) is { } measured =>
                    new ShimMeasured(action.Key, first.At, first.Size, measured.Size.ThicknessMm, measured.Place),
                { Undoes: { } number } when ledger.ElementAtOrDefault(number - 1) is { } undone =>
                    new EntryTakenBack(action.Key, first.At, undone.Action, 1 + ledger.Where(e => e.Action == undone.Action).TakeWhile(e => e.Number != number).Count()),
                _ => null,
            };
            if (deed is not null)
            {
                yield return deed;
            }
        }
    }

    private static IEnumerable<Deed> OfFeels(IReadOnlyList<KeptFeel> feels) =>
        feels.GroupBy(f => f.Person).SelectMany(book => book.OrderBy(f => f.Number).Select(f => new FeelWritten(
            f.Action, f.At, f.Person, f.Entry, FeelEntry.Read(f.Entry) is FeelTakenBack back ? book.FirstOrDefault(b => b.Number == back.Number)?.Action : null)));
}
