using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Due;

namespace Shimwright.Bench.InMemory;

/// <content>Rows in the place of others: another bench has said how they are there.</content>
internal sealed partial class MemoryState
{
    /// <summary>Puts rows in the place of those that are here under their keys, and takes away those that are named.</summary>
    public void Patch(BenchContents rows, RowKeys gone)
    {
        // With the jobs that it takes along, and what they have promised.
        foreach (Guid removed in rows.Removed)
        {
            TakeAway(removed);
        }

        foreach (MemoryJob job in gone.Jobs.Where(j => !rows.Jobs.Any(r => r.Id == j)).Select(j => Jobs.GetValueOrDefault(j)).OfType<MemoryJob>())
        {
            JobsByAction.Remove(job.Row.Action);
            Jobs.Remove(job.Row.Id);
        }

        gone.Engines.ForEach(e => Engines.Remove(e));
        gone.Cards.ForEach(c => Cards.Remove(c));
        foreach (IGrouping<Guid, int> facts in rows.Facts.Select(f => (f.Job, f.Number)).Concat(gone.Facts).GroupBy(f => f.Job, f => f.Number))
        {
            HashSet<int> replaced = [.. facts];
            Jobs.GetValueOrDefault(facts.Key)?.Leave(f => !replaced.Contains(f.Number));
        }

        foreach (IGrouping<Guid, int> entries in rows.Feels.Select(f => (f.Person, f.Number)).Concat(gone.Feels).GroupBy(f => f.Person, f => f.Number))
        {
            HashSet<int> replaced = [.. entries];
            List<KeptFeel>? book = Feels.GetValueOrDefault(entries.Key);
            book?.RemoveAll(f => replaced.Contains(f.Number));
            if (book is { Count: 0 })
            {
                Feels.Remove(entries.Key);
            }
        }

        Ledger.Replace(rows.Ledger, gone.Ledger);
        Ledger.Promise(gone.Promises.Select(j => new KeptPromises(j, new Dictionary<ShimSize, PromisedCount>())));
        SettingsRows.RemoveAll(s => gone.Settings.Contains(s.Version) || rows.Settings.Any(r => r.Version == s.Version));
        if (SettingsRows.Count == 0 && gone.Settings.Count > 0)
        {
            (Settings, SettingsMark) = (new(), Forecaster.MarkOf(new()));
        }

        Lay(rows with { Ledger = [] });
        if (rows.Counts.Count > 0 || gone.Counts)
        {
            LastJob = rows.LastJob;
        }
    }
}
