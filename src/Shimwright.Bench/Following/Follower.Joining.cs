using Shimwright.Bench.Contents;
using Shimwright.Bench.InStep;

namespace Shimwright.Bench.Following;

/// <content>Beginning to follow a bench, and leaving it.</content>
public sealed partial class Follower
{
    /// <summary>Begins to follow a bench: all that is here is told to it, and what it has is taken over.</summary>
    /// <param name="pictures">The pictures that are here, without their content.</param>
    /// <returns>When it is kept.</returns>
    public Task JoinAsync(IReadOnlyList<KeptPicture> pictures)
    {
        BenchContents here = Memory.Contents();
        DateTime now = _time.GetUtcNow().UtcDateTime;
        Deed[] deeds = [.. Joining.Deeds(here with { Pictures = pictures }, now)];
        Forget();
        Followed = new(Followed?.Pocket ?? Guid.NewGuid(), StepMark.None, Followed?.Device ?? "");
        Memory.Leap = Leap;
        IReadOnlyList<KeptLine> rows = KeptLines.Of(here with { Pictures = [] }, () => new());
        _waiting.Add(FollowLines.Of(Followed));
        foreach (KeptLine row in rows)
        {
            _ahead.Read(row.Key, "");
            _waiting.Add(FollowLines.OfBase(row.Key, null));
        }

        foreach (Deed deed in deeds)
        {
            _doing = deed;
            Remember();
        }

        return KeepAsync();
    }

    /// <summary>Follows no more: what is here stays.</summary>
    /// <returns>When it is kept.</returns>
    public Task LeaveAsync()
    {
        Forget();
        Followed = null;
        Memory.Leap = 1;
        _waiting.Add(new(FollowLines.Step, ""));
        return KeepAsync();
    }

    /// <summary>Lets go what the followed bench has not taken.</summary>
    /// <param name="key">Under what it is kept.</param>
    /// <returns>When it is kept.</returns>
    public Task DropAsync(string key)
    {
        if (FollowLines.IsLeft(key ?? "", out int number) && _left.Remove(number))
        {
            _waiting.Add(new(key!, null));
        }

        return KeepAsync();
    }

    /// <summary>Enters what was not taken once more, upon what is there now.</summary>
    /// <param name="key">Under what it is kept.</param>
    /// <param name="bench">The bench on which what is done is remembered.</param>
    /// <param name="device">The device.</param>
    /// <param name="action">A new action.</param>
    /// <returns>What became of it here; null where nothing is kept under the key.</returns>
    public async Task<DeedAnswer?> AgainAsync(string key, FollowedBench bench, string device, Guid action)
    {
        ArgumentNullException.ThrowIfNull(bench);
        if (!FollowLines.IsLeft(key ?? "", out int number) || !_left.TryGetValue(number, out LeftDeed? left))
        {
            return null;
        }

        Deed again = left.Deed switch
        {
            FactsAdded facts => facts with { Id = action, Seen = int.MaxValue },
            ShimsCounted counted => counted with { Id = action, Seen = null },
            UsageStated stated => stated with { Id = action, Before = await bench.Due.StatedUsageAsync(stated.Engine) },
            EngineSaved saved when await bench.Engines.FindAsync(saved.Engine) is { } now => saved with { Id = action, Seen = new(now.Version, 0, now.CardId, now.CardVersion, 0) },
            SettingsSaved settings => settings with { Id = action, Seen = (await bench.Settings.CurrentAsync()).Version, Own = 0 },
            var other => other with { Id = action },
        };
        DeedAnswer answer = await new DeedWork(bench, device, _ => Task.FromResult<IReadOnlySet<Guid>>(new HashSet<Guid>())).DoAsync(again);
        if (answer.IsTaken)
        {
            await DropAsync(key!);
        }

        return answer;
    }

    /// <summary>All that is kept: the rows, and what lies beside them.</summary>
    /// <returns>The lines.</returns>
    public IReadOnlyList<KeptLine> Lines() =>
    [
        .. KeptLines.Of(Memory.Contents() with { Pictures = [] }, () => new()),
        .. Followed is null ? Array.Empty<KeptLine>() : [FollowLines.Of(Followed)],
        .. _ahead.Rows.Select(r => FollowLines.OfBase(r.Key, r.Value)),
        .. _deeds.Select(d => FollowLines.OfDeed(d.Key, d.Value)),
        .. _left.Values.Select(FollowLines.OfLeft),
    ];

    private void Forget()
    {
        _waiting.AddRange(_ahead.Rows.Keys.Select(k => new KeptLine(FollowLines.Base + k, null)));
        _waiting.AddRange(_deeds.Keys.Select(n => new KeptLine(FollowLines.KeyOfDeed(n), null)));
        _ahead.Clear();
        _deeds.Clear();
    }
}
