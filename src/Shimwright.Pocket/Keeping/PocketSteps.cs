using Shimwright.Bench.Contents;
using Shimwright.Bench.Following;
using Shimwright.Bench.InStep;

namespace Shimwright.Pocket.Keeping;

/// <summary>The steps with the bench that the page came from: what is sent, what came of it, and how the last one went.</summary>
internal sealed class PocketSteps
{
    private StepRound? _round;

    /// <summary>Which bench follows, and with what is remembered.</summary>
    public Follower Follower { get; set; } = null!;

    /// <summary>The bench on which what is done is remembered.</summary>
    public FollowedBench Bench { get; set; } = null!;

    /// <summary>When the last step went through, UTC; null where none has since the page was opened.</summary>
    public DateTime? At { get; private set; }

    /// <summary>Why the last step did not go through; blank where it did.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>The step that is gone.</summary>
    public StepRound Round => _round ?? throw new InvalidOperationException("No step has begun.");

    /// <summary>Begins a step.</summary>
    /// <returns>Whether there is a bench to keep in step with.</returns>
    public bool Begin()
    {
        _round = new(Follower, PocketPictures.WholeAsync);
        return Follower.Followed is not null;
    }

    /// <summary>Takes over what was heard.</summary>
    /// <returns>Whether there is anything to see that was not done here.</returns>
    public async Task<bool> TakeAsync(DateTime now)
    {
        bool isNews = await Round.TakeAsync();
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
