using Shimwright.Domain.Planning;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>What a choice comes to, counted afresh from the definitions: work, what is to come after it, and the counts that settle ties.</summary>
internal readonly record struct PlanOutcome(int Stranded, double Work, double ToCome, int Opened, int Changed, int Bought, double Chance, double ToComeWithStranded)
{
    public double Minutes => Work + ToCome;

    /// <summary>The same where a stranded valve counts as one that fails for sure.</summary>
    public double MinutesWithStranded => Work + ToComeWithStranded;

    public (int Opened, int Changed, int Bought) Counts => (Opened, Changed, Bought);

    public (double ToCome, double Work) Point => (ToCome, Work);

    /// <summary>What a written plan comes to, from its lines and the price list.</summary>
    public static PlanOutcome Of(ShimPlan plan, PlanRequest request) => Of(
        request,
        [.. plan.Valves.Select(v => new Line(
            v.Chance ?? 1,
            v.IsStranded,
            v.Action != ValveAction.Keep,
            v.Estimate.InBand >= 0.9,
            v.Source == ShimSource.Buy ? request.Stock.Sizes.Where(s => s.Thickness == v.To).Min(s => s.Price) : null))]);

    /// <summary>What lines come to. Plain sums and products: it is asked of every choice there is.</summary>
    public static PlanOutcome Of(PlanRequest request, ReadOnlySpan<Line> lines)
    {
        PlanCosts costs = request.Costs;
        (double all, double failing, double work, double lifts, double liftsWithStranded) = (1, 0, 0, 0, 0);
        (int stranded, int changed, int bought, int opened) = (0, 0, 0, 0);
        foreach (string group in request.Engine.AccessGroups)
        {
            (double together, bool isOpened, bool isStranded) = (1, false, false);
            for (int v = 0; v < lines.Length; v++)
            {
                if (request.Engine.Valves[v].Access != group)
                {
                    continue;
                }

                Line line = lines[v];
                stranded += line.IsStranded ? 1 : 0;
                isStranded |= line.IsStranded;
                together *= line.IsStranded ? 1 : line.Chance;
                failing += line.IsStranded ? 0 : 1 - line.Chance;
                if (line.IsChange)
                {
                    isOpened = true;
                    changed++;
                    bought += line.Price is null ? 0 : 1;
                    work += costs.Swap + (line.WasGood ? costs.Disturb : 0) + ((line.Price ?? 0) * costs.MinutesPerCurrency);
                }
            }

            all *= together;
            lifts += costs.AccessOf(group) * (1 - together);
            liftsWithStranded += costs.AccessOf(group) * (isStranded ? 1 : 1 - together);
            work += isOpened ? costs.AccessOf(group) : 0;
            opened += isOpened ? 1 : 0;
        }

        return new(
            stranded, work, (costs.Redo * (1 - all)) + lifts + (request.Again * failing), opened, changed, bought, all,
            (costs.Redo * (stranded > 0 ? 1 : 1 - all)) + liftsWithStranded + (request.Again * (failing + stranded)));
    }

    /// <summary>One valve of a choice.</summary>
    internal readonly record struct Line(double Chance, bool IsStranded, bool IsChange, bool WasGood, double? Price);
}
