namespace Shimwright.Domain.Planning;

/// <summary>
/// The lower hull of all plans in (to come, work), least work first: what a minute of work more or less now buys later. Every corner is
/// the best plan at some exchange of minutes now for minutes later; corners are found by asking for the best plan at the slope of the
/// line through two known ones, until nothing lies below the line. The chosen plan, for which a minute is a minute, is among them.
/// </summary>
internal sealed class PlanHull
{
    /// <summary>What counts least is weighed by this beside a minute that counts 1.</summary>
    private const double Least = 1e-6;

    /// <summary>What is found has to lie this far below a line to be a corner, minutes.</summary>
    private const double Below = 1e-8;

    /// <summary>How exactly what counts least is still told apart.</summary>
    private const double Finest = 1e-12;

    private const double Same = 1e-9;

    private readonly PlanSearch _search;
    private readonly List<PlanPoint> _corners = [];

    public PlanHull(PlanSearch search)
    {
        _search = search;
        Chosen = search.Best(PlanWeights.Even, 0);
        Unproven = search.Unproven;
        PlanPoint cheapest = search.Best(new(1, Least), Finest);
        PlanPoint surest = search.Best(new(Least, 1), Finest);
        if (Chosen.Work - cheapest.Work > Same)
        {
            _corners.Add(cheapest);
            Expand(cheapest, Chosen);
        }

        _corners.Add(Chosen);
        if (Chosen.ToCome - surest.ToCome > Same)
        {
            Expand(Chosen, surest);
            _corners.Add(surest);
        }
    }

    /// <summary>The corners and the chosen plan, least work first.</summary>
    public IReadOnlyList<PlanPoint> Corners => _corners;

    /// <summary>The plan to take: fewest minutes, ties to fewer opened groups, changed valves, bought shims.</summary>
    public PlanPoint Chosen { get; }

    /// <summary>How many minutes less another plan may come to than the chosen one; 0 where none does.</summary>
    public double Unproven { get; }

    private void Expand(PlanPoint lessWork, PlanPoint lessToCome)
    {
        if (_search.IsSpent || lessToCome.Work - lessWork.Work <= Same || lessWork.ToCome - lessToCome.ToCome <= Same)
        {
            return;
        }

        var weights = PlanWeights.Between(lessWork, lessToCome);
        PlanPoint between = _search.Best(weights, Below / 2);
        double line = weights.Of(lessWork.Work, lessWork.ToCome);
        if (weights.Of(between.Work, between.ToCome) >= line - Below)
        {
            return;
        }

        Expand(lessWork, between);
        _corners.Add(between);
        Expand(between, lessToCome);
    }
}
