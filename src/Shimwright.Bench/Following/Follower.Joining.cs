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

    private void Forget()
    {
        _waiting.AddRange(_ahead.Rows.Keys.Select(k => new KeptLine(FollowLines.Base + k, null)));
        _waiting.AddRange(_deeds.Keys.Select(n => new KeptLine(FollowLines.KeyOfDeed(n), null)));
        _ahead.Clear();
        _deeds.Clear();
    }
}
