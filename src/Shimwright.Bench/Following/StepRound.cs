using System.Globalization;
using Shimwright.Bench.Contents;
using Shimwright.Bench.InStep;

namespace Shimwright.Bench.Following;

/// <summary>One step with the followed bench, message by message; whoever has the wire carries them.</summary>
/// <param name="follower">Who goes it.</param>
/// <param name="picture">Finds a picture with its content.</param>
public sealed class StepRound(Follower follower, Func<Guid, Task<KeptPicture?>> picture)
{
    private readonly List<DeedAnswer> _answers = [];
    private readonly List<StepChanges> _changes = [];
    private readonly Followed? _begun = follower.Followed;
    private string? _device;

    /// <summary>What is to be sent next; empty where nothing is.</summary>
    /// <returns>JSON.</returns>
    public async Task<string> NextAsync() =>
        await follower.NextToSendAsync(_answers.Select(a => a.Deed).ToHashSet(), picture) is { } sent ? StepJson.Write(sent) : "";

    /// <summary>Hears what came of what was sent.</summary>
    /// <param name="answer">The answer, JSON.</param>
    /// <returns>Whether it is the bench that is followed.</returns>
    public bool Hear(string answer)
    {
        var answered = StepJson.ReadAnswered(answer);
        _answers.AddRange(answered.Answers);
        _device = answered.Device;
        return follower.IsTheSame(answered.Bench) && answered.Answers.Count > 0;
    }

    /// <summary>The query that asks for what has changed; empty where all of it is here.</summary>
    /// <returns>The query.</returns>
    public string Query()
    {
        if (_changes.Count > 0 && !_changes[^1].HasMore)
        {
            return "";
        }

        StepMark mark = _changes.Count > 0 ? _changes[^1].Mark : _begun!.Mark;
        return string.Create(CultureInfo.InvariantCulture, $"bench={mark.Bench}&last={mark.Last}&ledger={mark.Ledger}&settings={mark.Settings}");
    }

    /// <summary>Hears what has changed.</summary>
    /// <param name="changes">The changes, JSON.</param>
    /// <returns>The pictures that are new; null where it is another bench.</returns>
    public IReadOnlyList<Guid>? Add(string changes)
    {
        StepChanges read = StepJson.ReadChanges(changes);
        _changes.Add(read);
        return follower.IsTheSame(read.Mark.Bench) ? read.Pictures : null;
    }

    /// <summary>Takes over what was heard.</summary>
    /// <returns>Whether there is anything to see that was not done here.</returns>
    public async Task<bool> TakeAsync() =>
        // Where another page of the same browser has gone a step meanwhile, what was heard here is older.
        _begun is { } begun && follower.Followed?.Mark == begun.Mark && _changes.Count > 0
        && await follower.TakeAsync(new(_changes[^1].Mark.Bench, _device is { Length: > 0 } said ? said : begun.Device, [.. _answers]), _changes);
}
