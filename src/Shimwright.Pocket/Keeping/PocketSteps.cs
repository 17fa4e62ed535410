using System.Globalization;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Following;
using Shimwright.Bench.InStep;

namespace Shimwright.Pocket.Keeping;

/// <summary>The steps with the bench that the page came from: what is sent, what came of it, and how the last one went.</summary>
internal sealed class PocketSteps
{
    private readonly List<DeedAnswer> _answers = [];
    private readonly List<StepChanges> _changes = [];
    private StepAnswered? _answered;
    private StepMark? _begun;

    /// <summary>Which bench follows, and with what is remembered.</summary>
    public Follower Follower { get; set; } = null!;

    /// <summary>The bench on which what is done is remembered.</summary>
    public FollowedBench Bench { get; set; } = null!;

    /// <summary>When the last step went through, UTC; null where none has since the page was opened.</summary>
    public DateTime? At { get; private set; }

    /// <summary>Why the last step did not go through; blank where it did.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>Begins a step.</summary>
    /// <returns>Whether there is a bench to keep in step with.</returns>
    public bool Begin()
    {
        _answers.Clear();
        _changes.Clear();
        _answered = null;
        _begun = Follower.Followed?.Mark;
        return Follower.Followed is not null;
    }

    /// <summary>What is to be sent next; empty where nothing is.</summary>
    public async Task<string> NextAsync() =>
        await Follower.NextToSendAsync(_answers.Select(a => a.Deed).ToHashSet(), PocketPictures.WholeAsync) is { } sent ? StepJson.Write(sent) : "";

    /// <summary>Hears what came of what was sent.</summary>
    /// <returns>Whether it is the bench that is followed.</returns>
    public bool Hear(string answer)
    {
        _answered = StepJson.ReadAnswered(answer);
        _answers.AddRange(_answered.Answers);
        return Follower.IsTheSame(_answered.Bench) && _answered.Answers.Count > 0;
    }

    /// <summary>The query that asks for what has changed; empty where all of it is here.</summary>
    public string Query()
    {
        if (_changes.Count > 0 && !_changes[^1].HasMore)
        {
            return "";
        }

        StepMark mark = _changes.Count > 0 ? _changes[^1].Mark : Follower.Followed!.Mark;
        return string.Create(CultureInfo.InvariantCulture, $"bench={mark.Bench}&last={mark.Last}&ledger={mark.Ledger}&settings={mark.Settings}");
    }

    /// <summary>Hears what has changed.</summary>
    /// <returns>The pictures that are new, a line each; null where it is another bench.</returns>
    public string? Add(string changes)
    {
        StepChanges read = StepJson.ReadChanges(changes);
        _changes.Add(read);
        return Follower.IsTheSame(read.Mark.Bench) ? string.Join('\n', read.Pictures) : null;
    }

    /// <summary>Takes over what was heard.</summary>
    /// <returns>Whether there is anything to see that was not done here.</returns>
    public async Task<bool> TakeAsync(DateTime now)
    {
        if (Follower.Followed?.Mark != _begun || _changes.Count == 0)
        {
            // Another page of this browser has gone a step meanwhile: what was heard here is older.
            return false;
        }

        string device = _answered?.Device is { Length: > 0 } said ? said : Follower.Followed!.Device;
        bool isNews = await Follower.TakeAsync(new(_changes[^1].Mark.Bench, device, [.. _answers]), _changes);
        (At, Trouble) = (now, "");
        return isNews;
    }

    /// <summary>Notes that a step did not go through.</summary>
    public void Fail(string why) => Trouble = why;

    /// <summary>Keeps a picture that has come.</summary>
    public static Task KeepAsync(string picture)
    {
        KeptPicture kept = StepJson.ReadPicture(picture);
        return PocketPictures.PutAsync(kept);
    }
}
