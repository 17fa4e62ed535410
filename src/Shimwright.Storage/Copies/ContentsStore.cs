using System.Data;
using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Past;
using Shimwright.Storage.Database;
using Shimwright.Storage.Drawer;

namespace Shimwright.Storage.Copies;

/// <summary>The whole of a database as rows, and back. Forecasts are no part of it: they follow from the rest.</summary>
internal static class ContentsStore
{
    private const int AtATime = 500;

    /// <summary>All rows as they stood at one moment.</summary>
    public static Task<BenchContents> ReadAsync(BenchContext context, CancellationToken cancel) => InViewAsync(context, () => AllAsync(context, cancel), cancel);

    /// <summary>Looks at everything as it stood at one moment, whoever writes meanwhile.</summary>
    public static Task<T> InViewAsync<T>(BenchContext context, Func<Task<T>> look, CancellationToken cancel) => context.Database.CreateExecutionStrategy().ExecuteAsync(
        async () =>
        {
            // On SQLite a transaction that only reads sees what was there at its first question.
            await context.Database.OpenConnectionAsync(cancel);
            await using DbTransaction view = context.Database.GetDbConnection() is SqliteConnection sqlite
                ? sqlite.BeginTransaction(deferred: true)
                : await context.Database.GetDbConnection().BeginTransactionAsync(IsolationLevel.RepeatableRead, cancel);
            await using IDbContextTransaction? transaction = await context.Database.UseTransactionAsync(view, cancel);
            return await context.ToldWhenCutAsync(look);
        });

    /// <summary>All rows, as the transaction sees them that has been begun.</summary>
    public static async Task<BenchContents> AllAsync(BenchContext context, CancellationToken cancel)
    {
        List<ShimPromiseRow> promises = await context.ShimPromises.AsNoTracking().ToListAsync(cancel);
        return new()
        {
            Cards = await RowsAsync(context.Cards, CardOf),
            Engines = await RowsAsync(context.Engines, EngineOf),
            Jobs = await RowsAsync(context.Jobs, JobOf),
            Facts = await RowsAsync(context.Facts.OrderBy(f => f.JobId).ThenBy(f => f.Number), FactOf),
            Promises = [.. promises.GroupBy(p => p.JobId).Select(job => PromisesOf(job.Key, job))],
            Ledger = await RowsAsync(context.ShimMoves.OrderBy(m => m.Number), DrawerLedger.EntryOf),
            Settings = await RowsAsync(context.Settings.OrderBy(s => s.Version), SettingsOf),
            Feels = await RowsAsync(context.Feels.OrderBy(f => f.PersonId).ThenBy(f => f.Number), FeelOf),
            // A bench on which no job was ever started has counted nothing.
            Counts = await RowsAsync(context.Counts.Where(c => c.Last > 0), c => new KeptCount(c.Name, c.Last)),
            Pictures = await RowsAsync(context.Pictures.OrderBy(p => p.Id), p => new KeptPicture(p.Id, p.JobId, p.At, p.ContentType, p.Width, p.Height, p.Content, p.Thumb)),
        };

        async Task<IReadOnlyList<TKept>> RowsAsync<TRow, TKept>(IQueryable<TRow> rows, Func<TRow, TKept> kept)
            where TRow : class => [.. (await rows.AsNoTracking().ToListAsync(cancel)).Select(kept)];
    }

    /// <summary>Writes rows into a database that has none; all of them or nothing.</summary>
    public static async Task<bool> WriteAsync(BenchContext context, BenchContents contents, IProgress<int>? progress, CancellationToken cancel)
    {
        return await context.InTransactionAsync(
            async transaction =>
            {
                // Whoever writes first holds the drawer, so that two that take in at once do not both find nothing.
                await DrawerLedger.HoldAsync(context, cancel);
                if (!await IsEmptyAsync(context, cancel))
                {
                    return false;
                }

                await FillAsync(context, contents, progress, cancel);
                await transaction.CommitAsync(cancel);
                return true;
            },
            cancel);
    }

    /// <summary>Writes rows within the transaction that has been begun.</summary>
    public static async Task FillAsync(BenchContext context, BenchContents contents, IProgress<int>? progress, CancellationToken cancel)
    {
        (await DrawerLedger.HoldAsync(context, cancel)).StandAt(contents.Ledger.Count);
        await context.SaveChangesAsync(cancel);
        contents = contents.Counted();
        int counted = contents.LastJob;
        await context.Counts.Where(c => c.Name == KeptCount.Jobs).ExecuteUpdateAsync(s => s.SetProperty(c => c.Last, counted), cancel);
        int done = 0;
        foreach (object[] rows in RowsOf(contents).Chunk(AtATime))
        {
            context.AddRange(rows);
            await context.SaveChangesAsync(cancel);
            context.ChangeTracker.Clear();
            done += rows.Length;
            progress?.Report(done);
        }
    }

    /// <summary>Whether nothing is in a database that somebody has entered.</summary>
    public static async Task<bool> IsEmptyAsync(BenchContext context, CancellationToken cancel) =>
        !await context.Cards.AnyAsync(cancel) && !await context.Engines.AnyAsync(cancel) && !await context.Jobs.AnyAsync(cancel)
        && !await context.ShimMoves.AnyAsync(cancel) && !await context.Settings.AnyAsync(cancel) && !await context.Feels.AnyAsync(cancel)
        && !await context.Pictures.AnyAsync(cancel);

    public static KeptCard CardOf(CardRow c) => new(c.Id, c.Title, c.Card, c.Details, c.Version, c.ChangedAt);

    public static KeptEngine EngineOf(EngineRow e) =>
        new(e.Id, e.CardId, e.Name, e.Notes, e.UsagePerWeek, e.Changes, e.Version, e.AddedAt, e.RetiredAt) { Owner = e.Owner, Frame = e.Frame };

    public static KeptFact FactOf(FactRow f) => new(f.JobId, f.Number, f.Action, f.Device, f.At, f.Fact);

    public static KeptSettings SettingsOf(SettingsRow s) => new(s.Version, s.Device, s.At, s.Settings);

    public static KeptFeel FeelOf(FeelRow f) => new(f.PersonId, f.Number, f.Action, f.Device, f.At, f.Entry);

    public static KeptPromises PromisesOf(Guid job, IEnumerable<ShimPromiseRow> rows) =>
        new(job, rows.ToDictionary(p => new ShimSize(p.Diameter, p.Thickness, p.By), p => new PromisedCount(p.Count, p.Fitted)));

    public static KeptJob JobOf(JobRow j)
    {
        KeptJob kept = new(
            j.Id, j.EngineId, j.Setup, j.Action, new((PastOrigin)j.Past, j.FollowsId), (JobStage)j.Stage, j.Clock, j.StartedAt, j.ChangedAt, j.ClosedAt, j.Record, j.DiscardedAt);
        return kept with { Number = j.Number };
    }

    private static IEnumerable<object> RowsOf(BenchContents contents)
    {
        Dictionary<Guid, int> last = contents.Facts.GroupBy(f => f.Job).ToDictionary(g => g.Key, g => g.Max(f => f.Number));
        return
        [
            .. contents.Cards.Select(c => new CardRow { Id = c.Id, Title = c.Title, Card = c.Card, Details = c.Details, Version = c.Version, ChangedAt = c.ChangedAt }),
            .. contents.Engines.Select(e => new EngineRow
            {
                Id = e.Id, CardId = e.CardId, Name = e.Name, Search = SearchText.Of(e.Name), Notes = e.Notes, Owner = e.Owner, Frame = e.Frame, UsagePerWeek = e.PerWeek,
                Changes = e.Changes, Version = e.Version, AddedAt = e.AddedAt, RetiredAt = e.RetiredAt,
            }),
            .. contents.Jobs.Select(j => new JobRow
            {
                Id = j.Id, Number = j.Number, EngineId = j.EngineId, Setup = j.Setup, Action = j.Action, Past = (int)j.Past.Origin, FollowsId = j.Past.Follows, Stage = (int)j.Stage,
                Last = last.GetValueOrDefault(j.Id), Clock = j.Clock, StartedAt = j.StartedAt, ChangedAt = j.ChangedAt, ClosedAt = j.ClosedAt, Record = j.Record, DiscardedAt = j.DiscardedAt,
            }),
            .. contents.Facts.Select(f => new FactRow { JobId = f.Job, Number = f.Number, Action = f.Action, Device = f.Device, At = f.At, Fact = f.Fact }),
            .. contents.Promises.SelectMany(p => p.Promised.Select(s => new ShimPromiseRow
            {
                JobId = p.Job, Diameter = s.Key.Diameter, Thickness = s.Key.Thickness, By = s.Key.By, Count = s.Value.Count, Fitted = s.Value.Fitted,
            })),
            .. contents.Ledger.Select(DrawerLedger.RowOf),
            .. contents.Settings.Select(s => new SettingsRow { Version = s.Version, Device = s.Device, At = s.At, Settings = s.Settings }),
            .. contents.Feels.Select(f => new FeelRow { PersonId = f.Person, Number = f.Number, Action = f.Action, Device = f.Device, At = f.At, Entry = f.Entry }),
            .. contents.Pictures.Select(p => new PictureRow
            {
                Id = p.Id, JobId = p.Job, At = p.At, ContentType = p.ContentType, Width = p.Width, Height = p.Height, Content = p.Content, Thumb = p.Thumb,
            }),
        ];
    }
}
