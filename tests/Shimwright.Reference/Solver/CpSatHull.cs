namespace Shimwright.Reference.Solver;

/// <summary>Every corner of the lower hull of all plans in (doubt, minutes), each found and proven by CP-SAT.</summary>
internal static class CpSatHull
{
    private const double SureOfDoubt = 1e6;
    private const double Tolerance = 1e-5;

    public static List<PlanValue> Corners(PlanModel model)
    {
        PlanValue cheapest = CpSatPlanner.Best(model, 0);
        PlanValue surest = CpSatPlanner.Best(model, SureOfDoubt);
        List<PlanValue> corners = [cheapest, surest];
        Expand(model, cheapest, surest, corners);

        // At either end the solver may return any of several equals: what costs more or doubts more than another goes.
        return [.. corners.Where(c => !corners.Any(other => IsBetter(other, c)))];
    }

    private static bool IsBetter(PlanValue one, PlanValue other) =>
        one.Minutes <= other.Minutes + Tolerance && one.NegLogChance <= other.NegLogChance + Tolerance
        && (one.Minutes < other.Minutes - Tolerance || one.NegLogChance < other.NegLogChance - Tolerance);

    private static void Expand(PlanModel model, PlanValue cheaper, PlanValue surer, List<PlanValue> corners)
    {
        if (cheaper.NegLogChance - surer.NegLogChance < Tolerance)
        {
            return;
        }

        double rate = (surer.Minutes - cheaper.Minutes) / (cheaper.NegLogChance - surer.NegLogChance);
        PlanValue between = CpSatPlanner.Best(model, rate);
        if (between.Linear(rate) >= cheaper.Linear(rate) - (Tolerance * Math.Max(1, rate)))
        {
            return;
        }

        corners.Add(between);
        Expand(model, cheaper, between, corners);
        Expand(model, between, surer, corners);
    }
}
