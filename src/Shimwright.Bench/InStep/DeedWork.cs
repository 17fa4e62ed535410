using System.Text.Json;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;

namespace Shimwright.Bench.InStep;

/// <summary>Does on one bench what was done on another, by the same rules as for whoever works at it. What it is sent is not trusted.</summary>
/// <param name="bench">The bench.</param>
/// <param name="device">The device that sent it.</param>
/// <param name="own">Of some actions those by the same device, which has seen them.</param>
/// <param name="leap">By how much a version goes up with each change.</param>
public sealed class DeedWork(IBench bench, string device, Func<IReadOnlyCollection<Guid>, Task<IReadOnlySet<Guid>>> own, int leap = 1)
{
    /// <summary>Does a deed.</summary>
    /// <param name="deed">The deed.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    public async Task<DeedAnswer> DoAsync(Deed deed, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(deed);
        try
        {
            return deed switch
            {
                EngineAdded added => await AddAsync(added, cancel),
                EngineShared shared => await ShareAsync(shared, cancel),
                EngineSaved saved => await SaveAsync(saved, cancel),
                EngineRetired retired => await bench.Engines.RetireAsync(retired.Engine, retired.IsRetired, cancel) ? DeedAnswer.Saved(deed) : NoEngine(deed),
                EngineRemoved removed => await RemoveAsync(removed, cancel),
                UsageStated stated => await StateAsync(stated, cancel),
                JobStarted started => await StartAsync(started, cancel),
                FactsAdded facts => await AddAsync(facts, cancel),
                ShimsPutIn shims => DeedAnswer.Of(deed, await bench.Drawer.AddAsync(shims.Shims, new(deed.Id, device), cancel)),
                ShimsCounted counted => await CountAsync(counted, cancel),
                ShimMeasured measured => DeedAnswer.Of(deed, await bench.Drawer.MeasureAsync(measured.Marked, measured.Thickness, measured.Place, new(deed.Id, device), cancel)),
                EntryTakenBack back => await TakeBackAsync(back, cancel),
                FeelWritten feel => await WriteAsync(feel, cancel),
                SettingsSaved settings => await SaveAsync(settings, cancel),
                PictureAdded added => await AddAsync(added, cancel),
                _ => Wrong(deed),
            };
        }
        catch (Exception e) when (e is ArgumentException or JsonException or FormatException)
        {
            return Wrong(deed);
        }
    }

    private static DeedAnswer Wrong(Deed deed) => DeedAnswer.Refused(deed, new JobProblem("deed", "the bench cannot read it or has no place for it", "enter it at the bench by hand"));

    private static DeedAnswer NoEngine(Deed deed) => DeedAnswer.Refused(deed, new JobProblem("engine", "the engine is no longer on the bench", "add it again, or leave this out"));

    private static async Task<DeedAnswer> KeepAsync(Deed deed, Func<Task> work)
    {
        await work();
        return DeedAnswer.Saved(deed);
    }

    private Task<DeedAnswer> AddAsync(EngineAdded added, CancellationToken cancel) =>
        EngineCard.Read(added.Card) is { Card: { } card } && added.Engine != Guid.Empty
            ? KeepAsync(added, () => bench.Engines.AddAsync(added.Engine, added.Name, card, CardDetails.Read(added.Details), added.Notes, new(added.Owner, added.Frame), cancel))
            : Task.FromResult(Wrong(added));

    private Task<DeedAnswer> ShareAsync(EngineShared shared, CancellationToken cancel) =>
        shared.Engine == Guid.Empty ? Task.FromResult(Wrong(shared)) : KeepAsync(shared, () => bench.Engines.AddSharingAsync(shared.Engine, shared.Name, shared.Card, cancel));

    private async Task<DeedAnswer> SaveAsync(EngineSaved saved, CancellationToken cancel)
    {
        if (EngineCard.Read(saved.Card) is not { Card: { } card })
        {
            return Wrong(saved);
        }

        CardDetails details = CardDetails.Read(saved.Details);
        EnginePapers? papers = saved is { Owner: { } owner, Frame: { } frame } ? new(owner, frame) : null;
        SaveOutcome outcome = await bench.Engines.SaveAsync(
            (saved.Engine, saved.Seen.Version + (saved.Seen.Own * leap), saved.Seen.CardVersion + (saved.Seen.CardOwn * leap)), saved.Name, card, details, saved.Notes, papers, cancel);
        return outcome switch
        {
            SaveOutcome.Saved => DeedAnswer.Saved(saved),
            SaveOutcome.NoSuchEngine => NoEngine(saved),
            _ when await bench.Engines.FindAsync(saved.Engine, cancel) is { } now && now.Name == saved.Name && now.Notes == saved.Notes
                && now.Card.Json == NamedCard.Kept(saved.Card, saved.Name).Json && now.Details.ToJson() == details.ToJson() && (papers ?? now.Papers) == now.Papers =>
                new(saved.Id, AddOutcome.SavedBefore, [], []),
            _ => DeedAnswer.Conflict(saved, "card", $"{saved.Name} was changed on the bench meanwhile", "look at the card as it is now, then make your change again"),
        };
    }

    /// <summary>A picture is made anew here too, whoever has made it before.</summary>
    private async Task<DeedAnswer> AddAsync(PictureAdded added, CancellationToken cancel)
    {
        KeptPicture sent = added.Picture;
        if (await bench.Pictures.FindAsync(sent.Id, sent.Job, cancel) is not null)
        {
            return new(added.Id, AddOutcome.SavedBefore, [], []);
        }

        ArrivedPicture made = sent.Job is null ? ArrivedPicture.Logo(sent.Content) : ArrivedPicture.Photo(sent.Content);
        return made.Picture is { } picture
            ? await KeepAsync(added, () => bench.Pictures.AddAsync(sent.Id, sent.Job, picture, cancel))
            : DeedAnswer.Refused(added, made.Problem!);
    }

    private async Task<DeedAnswer> RemoveAsync(EngineRemoved removed, CancellationToken cancel) =>
        await bench.Engines.FindAsync(removed.Engine, cancel) is null ? DeedAnswer.Saved(removed)
        : await bench.Engines.RemoveAsync(removed.Engine, removed.Typed, cancel) is { Count: > 0 } problems ? DeedAnswer.Refused(removed, problems)
        : DeedAnswer.Saved(removed);

    private async Task<DeedAnswer> StateAsync(UsageStated stated, CancellationToken cancel)
    {
        double? now = await bench.Due.StatedUsageAsync(stated.Engine, cancel);
        return now != stated.Before && now != stated.PerWeek ? DeedAnswer.Conflict(stated, "usage", "the use was changed on the bench meanwhile", "look at it as it is now, then change it if it is wrong")
            : now == stated.PerWeek ? await bench.Engines.FindAsync(stated.Engine, cancel) is null ? NoEngine(stated) : DeedAnswer.Saved(stated)
            : await bench.Due.StateUsageAsync(stated.Engine, stated.PerWeek, cancel) ? DeedAnswer.Saved(stated)
            : NoEngine(stated);
    }

    private async Task<DeedAnswer> StartAsync(JobStarted started, CancellationToken cancel)
    {
        if (await bench.Jobs.FindAsync(started.Id, cancel) is { } before)
        {
            return new(started.Id, before.Summary.EngineId == started.Engine ? AddOutcome.SavedBefore : AddOutcome.Reused, [], []);
        }

        if (await bench.Engines.FindAsync(started.Engine, cancel) is null)
        {
            return NoEngine(started);
        }

        if (started.Past.Follows is { } follows)
        {
            if ((await bench.Jobs.FindAsync(follows, cancel))?.Summary.EngineId != started.Engine)
            {
                return DeedAnswer.Refused(started, new JobProblem("job", "the job that this second round follows is not on the bench", "start the round from that job again"));
            }

            if (await bench.Jobs.SecondRoundOfAsync(follows, cancel) is not null)
            {
                return DeedAnswer.Conflict(started, "job", "the second round of that job was started on the bench meanwhile", "enter there what you have felt");
            }
        }

        // What a job starts from is written by its own rules: a file is read as one that is taken in.
        ParsedSetup read = JobSetup.FromFile(System.Text.Encoding.UTF8.GetBytes(started.Setup));
        IReadOnlyList<JobFact> facts = DeedFacts.Read(started.Facts, null);
        if (read.Setup is not { } setup || read.Facts.Count > 0)
        {
            return DeedAnswer.Refused(started, read.Problems);
        }

        await bench.Jobs.StartAsync(started.Engine, setup, facts, started.Past, started.Id, device, cancel);
        return DeedAnswer.Saved(started);
    }

    private async Task<DeedAnswer> AddAsync(FactsAdded added, CancellationToken cancel)
    {
        if (await bench.Jobs.FindAsync(added.Job, cancel) is not { } job)
        {
            return DeedAnswer.Refused(added, new JobProblem("job", "this job is not on the bench", "its engine was deleted there, or its start was not accepted; enter it in a new job"));
        }

        IReadOnlySet<Guid> seen = await OwnAsync(job.Sheet.Entries.Where(e => e.Number > added.Seen).Select(e => e.Action));
        return DeedAnswer.Of(added, await bench.Jobs.AddAsync(added.Job, new(added.Id, device, Math.Max(0, added.Seen), DeedFacts.Read(added.Facts, job.Sheet)) { AlsoSeen = seen }, cancel));
    }

    private async Task<DeedAnswer> CountAsync(ShimsCounted counted, CancellationToken cancel)
    {
        IReadOnlySet<Guid> seen = counted.Seen is { } last ? await OwnAsync((await bench.Drawer.EntriesAsync(last, null, cancel)).Select(e => e.Action)) : new HashSet<Guid>();
        return DeedAnswer.Of(counted, await bench.Drawer.CountAsync(counted.Counted, new(counted.Id, device, counted.Seen) { AlsoSeen = seen }, cancel));
    }

    private async Task<IReadOnlySet<Guid>> OwnAsync(IEnumerable<Guid> actions) => actions.ToHashSet() is { Count: > 0 } some ? await own(some) : new HashSet<Guid>();

    private async Task<DeedAnswer> TakeBackAsync(EntryTakenBack back, CancellationToken cancel) =>
        await bench.Drawer.EntriesAsync(0, back.Action, cancel) is var entries && back.Place >= 1 && back.Place <= entries.Count
            ? DeedAnswer.Of(back, await bench.Drawer.UndoAsync(entries[back.Place - 1].Number, new(back.Id, device), cancel))
            : DeedAnswer.Refused(back, new JobProblem("entry", "the bench does not have the entry that this takes back", "count what there is"));

    private async Task<DeedAnswer> WriteAsync(FeelWritten feel, CancellationToken cancel)
    {
        var entry = FeelEntry.Read(feel.Entry);
        if (entry is FeelTakenBack)
        {
            if (feel.TakesBack is not { } action || await bench.Feel.NumberOfAsync(feel.Person, action, cancel) is not { } number)
            {
                return DeedAnswer.Refused(feel, new JobProblem("trial", "the bench does not have the trial that this takes back", "look at the trials as they are now"));
            }

            entry = new FeelTakenBack(number);
        }

        IReadOnlyList<JobProblem> problems = await bench.Feel.AddAsync(feel.Person, feel.Id, device, entry, cancel);
        return problems.Count > 0 ? DeedAnswer.Refused(feel, problems) : DeedAnswer.Saved(feel);
    }

    private async Task<DeedAnswer> SaveAsync(SettingsSaved saved, CancellationToken cancel)
    {
        BenchSettings settings = BenchSettings.Read(saved.Settings);
        return settings.Problems() is { Count: > 0 } problems ? DeedAnswer.Refused(saved, problems)
            : await bench.Settings.SaveAsync(settings, saved.Seen + (saved.Own * leap), device, cancel) ? DeedAnswer.Saved(saved)
            : (await bench.Settings.CurrentAsync(cancel)).Settings.ToJson() == settings.ToJson() ? new(saved.Id, AddOutcome.SavedBefore, [], [])
            : DeedAnswer.Conflict(saved, "settings", "the settings were changed on the bench meanwhile", "look at them as they are now, then make your change again");
    }
}
