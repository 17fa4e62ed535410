using Shimwright.Bench.Contents;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.InStep;

/// <summary>Answers benches that keep in step with this one.</summary>
public static class StepDesk
{
    /// <summary>How many engines, jobs, books and pictures one part of the changes has at most.</summary>
    public const int MostChanges = 40;

    /// <summary>Does what was done elsewhere, deed by deed; what is cut off in between is sent again and counts once.</summary>
    /// <param name="bench">The bench, which others can keep in step with.</param>
    /// <param name="sent">What was sent.</param>
    /// <param name="device">What is written beside it.</param>
    /// <param name="role">What the device may do.</param>
    /// <param name="now">The time here, UTC.</param>
    /// <param name="onFault">Hears of a fault of the program over a deed: that one is refused, and those after it are gone on with.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What became of it.</returns>
    /// <exception cref="ArgumentException">Nobody can keep in step with the bench.</exception>
    public static async Task<StepAnswered> HearAsync(
        IBench bench, StepSent sent, string device, DeviceRole role, DateTime now, Action<Exception>? onFault = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(sent);
        IStepped stepped = Stepped(bench);
        string here = await stepped.NameAsync(cancel);
        List<DeedAnswer> answers = [];
        HashSet<string> refused = [];
        foreach (Deed deed in sent.Bench.Length == 0 || sent.Bench == here ? sent.Deeds : [])
        {
            DeedAnswer answer = await stepped.AnsweredAsync(deed.Id, cancel)
                ?? (deed.BuildsOn.Any(b => b.Own > 0 && refused.Contains(b.Replaced)) ? DeedAnswer.Conflict(deed, "deed", "it builds on a change that was not accepted", "look at what the bench has now, then change that")
                : await TryAsync(() => DoAsync(bench, stepped, deed, (sent, device, role), now, cancel), stepped, deed, onFault));
            await stepped.HearAsync(new(deed.Id, sent.Pocket, device, deed.At, now, answer), cancel);
            answers.Add(answer);
            if (!answer.IsTaken)
            {
                refused.UnionWith(deed.BuildsOn.Select(b => b.Replaced));
            }
        }

        return new(here, device, answers);
    }

    /// <summary>What has changed here since a mark.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="mark">The mark.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The changes, or a first part of them.</returns>
    /// <exception cref="ArgumentException">Nobody can keep in step with the bench.</exception>
    public static async Task<StepChanges> ChangesAsync(IBench bench, StepMark mark, CancellationToken cancel = default)
    {
        StepPart part = await Stepped(bench).SinceAsync(mark, MostChanges, cancel);
        return new(
            part.Mark, [.. KeptLines.Of(part.Rows with { Removed = [] }, () => new()).Select(l => new StepRow(l.Key, l.Line is { Length: > 0 } ? l.Line : null))], part.Rows.Removed,
            [.. part.Rows.Pictures.Select(p => p.Id)], part.HasMore);
    }

    private static IStepped Stepped(IBench bench) => bench as IStepped ?? throw new ArgumentException("Nobody can keep in step with this bench.", nameof(bench));

    /// <summary>A deed over which the program fails would be sent again for ever, and hold up all that were done after it.</summary>
    private static async Task<DeedAnswer> TryAsync(Func<Task<DeedAnswer>> work, IStepped stepped, Deed deed, Action<Exception>? onFault)
    {
        try
        {
            return await work();
        }
        catch (Exception fault) when (fault is not OperationCanceledException && !stepped.IsAway(fault))
        {
            onFault?.Invoke(fault);
            return DeedAnswer.Refused(deed, new JobProblem("deed", "the bench's program failed on it", "enter it again, or leave it out and enter it at the bench; the bench's log says what went wrong"));
        }
    }

    private static async Task<DeedAnswer> DoAsync(IBench bench, IStepped stepped, Deed deed, (StepSent Sent, string Device, DeviceRole Role) from, DateTime now, CancellationToken cancel)
    {
        if (await MayNotAsync(bench, deed, from.Role, cancel) is { } problem)
        {
            return DeedAnswer.Refused(deed, problem);
        }

        // A device's clock may be wrong: what counts is how long ago it was.
        TimeSpan ago = from.Sent.Now - deed.At;
        DateTime then = ago > TimeSpan.Zero && ago < now - DateTime.UnixEpoch ? now - ago : now;
        return await stepped.AtAsync(then, b => new DeedWork(b, from.Device, actions => stepped.SentByAsync(from.Sent.Pocket, actions, cancel)).DoAsync(deed, cancel));
    }

    /// <summary>What the pages ask for is asked for here too.</summary>
    private static async Task<JobProblem?> MayNotAsync(IBench bench, Deed deed, DeviceRole role, CancellationToken cancel)
    {
        if (role < DeviceRole.Mechanic)
        {
            return new("device", "this device may look and not enter anything", "ask an owner to let it in as a mechanic's");
        }

        bool isOwners = deed switch
        {
            EngineRetired or EngineRemoved or SettingsSaved or PictureAdded { Picture.Job: null } => true,
            FactsAdded facts when await bench.Jobs.FindAsync(facts.Job, cancel) is { } job => HasOwners(facts, job),
            _ => false,
        };
        return isOwners && role < DeviceRole.Owner ? new("device", "only an owner's device may do that", "ask an owner to do it") : null;
    }

    private static bool HasOwners(FactsAdded added, StoredJob job)
    {
        try
        {
            return DeedFacts.Read(added.Facts, job.Sheet).Any(f => OwnerFacts.Has(job.Sheet, f));
        }
        catch (System.Text.Json.JsonException)
        {
            // What is no fact is refused as such.
            return false;
        }
    }
}
