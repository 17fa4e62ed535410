namespace Shimwright.Bench;

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
    private readonly List<(double Doubt, double Minutes)> _corners = [];

    public CpSatHull(CpSatPlan plan)
    {
        _plan = plan;
        (double Doubt, double Minutes) cheapest = Solve(LeastLambda);
        (double Doubt, double Minutes) surest = Solve(GreatestLambda);
        _corners.Add(cheapest);
        if (cheapest.Doubt > surest.Doubt)
        {
            Expand(cheapest, surest);
            _corners.Add(surest);
        }
    }

    public IReadOnlyList<(double Doubt, double Minutes)> Corners => _corners;

    public int Solves { get; private set; }

    private (double Doubt, double Minutes) Solve(double lambda)
    {
        Solves++;
        return _plan.Solve(lambda);
    }

    private void Expand((double Doubt, double Minutes) cheaper, (double Doubt, double Minutes) surer)
    {
        double lambda = (surer.Minutes - cheaper.Minutes) / (cheaper.Doubt - surer.Doubt);
        (double Doubt, double Minutes) between = Solve(lambda);
        double below = (lambda * (cheaper.Doubt - between.Doubt)) + cheaper.Minutes - between.Minutes;
        if (below > Tolerance)
        {
            Expand(cheaper, between);
            _corners.Add(between);
            Expand(between, surer);
        }
    }
}
