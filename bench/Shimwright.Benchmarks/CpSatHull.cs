namespace Shimwright.Benchmarks;

/// <summary>
/// The whole job for the general solver: the corners of the hull, found as the plan finds them, one solve a question,
/// on one model whose costs alone are changed. The ends are asked for with a very small and a very great λ.
/// </summary>
internal sealed class CpSatHull
{
    private const double LeastLambda = 1e-3;
    private const double GreatestLambda = 1e5;

    /// <summary>A plan must lie this much below the line through two others, in units of doubt, to be a corner: as <see cref="Domain.Planning.PlanHull"/> has it.</summary>
    private const double Tolerance = 256e-9;
    private readonly CpSatPlan _plan;
    private readonly List<(double NegLogChance, double Minutes)> _corners = [];

    public CpSatHull(CpSatPlan plan)
    {
        _plan = plan;
        (double NegLogChance, double Minutes) cheapest = Solve(LeastLambda);
        (double NegLogChance, double Minutes) surest = Solve(GreatestLambda);
        _corners.Add(cheapest);
        if (cheapest.NegLogChance > surest.NegLogChance)
        {
            Expand(cheapest, surest);
            _corners.Add(surest);
        }
    }

    public IReadOnlyList<(double NegLogChance, double Minutes)> Corners => _corners;

    public int Solves { get; private set; }

    private (double NegLogChance, double Minutes) Solve(double lambda)
    {
        Solves++;
        return _plan.Solve(lambda);
    }

    private void Expand((double NegLogChance, double Minutes) cheaper, (double NegLogChance, double Minutes) surer)
    {
        double lambda = (surer.Minutes - cheaper.Minutes) / (cheaper.NegLogChance - surer.NegLogChance);
        (double NegLogChance, double Minutes) between = Solve(lambda);
        double below = (lambda * (cheaper.NegLogChance - between.NegLogChance)) + cheaper.Minutes - between.Minutes;
        if (below > Tolerance)
        {
            Expand(cheaper, between);
            _corners.Add(between);
            Expand(between, surer);
        }
    }
}
