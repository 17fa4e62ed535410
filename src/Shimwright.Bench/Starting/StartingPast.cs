using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Starting;

/// <summary>What an engine's closed jobs mean for the next one: the past that it starts with, and what is expected of its clock.</summary>
public sealed class StartingPast
{
    private readonly IReadOnlyList<WrittenCheck> _history;
    private readonly bool _tellsMore;

    private StartingPast(IReadOnlyList<WrittenCheck> history, bool tellsMore, double? lastClock)
    {
        _history = history;
        _tellsMore = tellsMore;
        LastClock = lastClock;
    }

    /// <summary>Without usual wear on the card a past says nothing: then a job starts without.</summary>
    /// <param name="card">The engine's card.</param>
    /// <param name="closed">Its closed jobs, oldest first.</param>
    /// <returns>The past.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static StartingPast Of(EngineCard card, IReadOnlyList<PastJob> closed)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(closed);
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(card, closed);
        return new(history, card.Wear is not null, closed.Select(j => j.Sheet.Closing?.Clock).Append(EngineHistory.LastClock(history)).Max());
    }

    /// <summary>The highest clock that is known, at a check or when a job was closed, or null.</summary>
    public double? LastClock { get; }

    /// <summary>Whether a clock has run back, so that somebody has to say why.</summary>
    /// <param name="clock">The clock at the check.</param>
    /// <returns>Whether it has.</returns>
    public bool RanBackTo(double clock) => clock < LastClock;

    /// <summary>What a job starts with, the past put into it.</summary>
    /// <param name="bench">What the bench has set for the job.</param>
    /// <returns>The same with the past.</returns>
    /// <exception cref="ArgumentNullException">There is nothing to put it into.</exception>
    public WrittenStart On(WrittenStart bench)
    {
        ArgumentNullException.ThrowIfNull(bench);
        return _tellsMore && _history.Count > 0 ? bench with { History = _history } : bench;
    }

    /// <summary>What is wrong with a clock, or null.</summary>
    /// <param name="clock">The clock at the check.</param>
    /// <param name="clocks">How clocks are written.</param>
    /// <returns>The problem, or null.</returns>
    /// <exception cref="ArgumentNullException">There is no style.</exception>
    public JobProblem? ProblemAt(double clock, ClockStyle clocks)
    {
        ArgumentNullException.ThrowIfNull(clocks);
        return RanBackTo(clock)
            ? new(ClockPath, $"found {clocks.Text(clock)}, and the last one known is {clocks.Text(LastClock!.Value)}",
                "correct it, or say that the meter was changed or that the clock is right")
            : null;
    }

    /// <summary>Where a clock that has run back is named.</summary>
    public const string ClockPath = "clock";
}
