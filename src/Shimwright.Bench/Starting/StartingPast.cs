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

    private StartingPast(IReadOnlyList<WrittenCheck> history, bool tellsMore)
    {
        _history = history;
        _tellsMore = tellsMore;
    }

    /// <summary>Without usual wear on the card a past says nothing: then a job starts without.</summary>
    /// <param name="card">The engine's card.</param>
    /// <param name="closed">Its closed jobs, oldest first.</param>
    /// <returns>The past.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static StartingPast Of(EngineCard card, IReadOnlyList<PastJob> closed)
    {
        ArgumentNullException.ThrowIfNull(card);
        return new(EngineHistory.Of(card, closed), card.Wear is not null);
    }

    /// <summary>Its clock at the last check, or null.</summary>
    public double? LastClock => EngineHistory.LastClock(_history);

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
        return LastClock is { } last && clock < last
        ? new("clock", $"found {clocks.Text(clock)}, and the last check was at {clocks.Text(last)}",
            "enter what the clock shows now, that or more; where a new clock was fitted, add what the old one had counted")
        : null;
    }
}
