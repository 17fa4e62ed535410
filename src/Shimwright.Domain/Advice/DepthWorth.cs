using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What a depth is worth at a valve, with its camshaft lifted: over clearances of equal chance that it may show, each planned from.
/// </summary>
internal static class DepthWorth
{
    /// <summary>Standard uncertainty of a clearance found from depths, mm. Common practice, no source.</summary>
    private const double Uncertainty = 0.015;

    private const int Answers = 9;

    /// <summary>A depth at each valve under a camshaft that acts on its bucket.</summary>
    public static IEnumerable<Weighed> Weighed(AdviceRequest request, Outlook now, LocalWorth[] local)
    {
        Engine engine = request.Plan.Engine;
        if (request.Minutes.Depth is not { } minutes || Valvetrain.HasLever(engine.Valvetrain.Adjuster))
        {
            yield break;
        }

        for (int v = 0; v < local.Length; v++)
        {
            int valve = v;
            string? access = engine.Valves[v].HasAccess ? engine.Valves[v].Access : null;
            // Where the plan lifts the camshaft anyway that is no part of what the depth takes; but it is spent whatever the depth shows.
            double spent = access is not null && now.Plan.Opened.Contains(access) ? request.Plan.Costs.ToOpen(access) : 0;
            double takes = minutes + (access is null ? 0 : request.Plan.Costs.ToOpen(access) - spent);
            yield return new(ActionKind.Depth, v, null, Alone(now, local[v], v, access, spent), takes, net => Saving(now, valve, access, spent, net + takes) is { } saves
                ? new(ActionKind.Depth, saves, takes, valve, [], null, access, [])
                : null);
        }
    }

    private static double? Saving(Outlook now, int v, string? access, double spent, double toSave)
    {
        double[] shown = Shown(now, v);
        double After(int k)
        {
            EngineEstimate after = now.Estimate.With(v, new ValveReadings(values: [new DirectValue(shown[k], Uncertainty)]));
            return access is null ? now.MinutesWith(after) : now.MinutesWithOpen(access, after);
        }

        double least = Math.Max(0, now.LeastAfter(v, toSave) - (access is null ? 0 : now.Request.Costs.ToOpen(access)));
        return Expectation.Minutes(now, spent, _ => 1.0 / Answers, Enumerable.Range(0, Answers), After, least, toSave) is { } minutes
            ? now.Saving(spent + minutes.Average())
            : null;
    }

    private static double Alone(Outlook now, LocalWorth local, int v, string? access, double spent) => local.Least - spent - Shown(now, v).Average(x =>
    {
        double[] chances = Array.ConvertAll(local.Gaps, gap => Math.Exp(-0.5 * Squares.Of((x - gap) / Uncertainty)));
        return local.LeastUnder(chances, local.ChanceOf(chances), isOpen: access is not null);
    });

    /// <summary>Gaps that a depth may show, each as likely as the next.</summary>
    private static double[] Shown(Outlook now, int v)
    {
        ClearanceDistribution valve = now.Estimate.Valves[v];
        double wider = Squares.CombinedStandardUncertainty(1, Uncertainty / valve.StandardDeviation);
        return [.. Enumerable.Range(0, Answers).Select(k =>
            valve.Mean + ((valve.Quantile((k + 0.5) / Answers) - valve.Mean) * wider) + now.Request.Check.ShiftAt(v).Millimetres)];
    }
}
