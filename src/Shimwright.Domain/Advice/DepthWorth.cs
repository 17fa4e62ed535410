using Shimwright.Domain.Engines;
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
        if (request.Minutes.Depth is not { } minutes || engine.Valvetrain.Adjuster is not (Adjuster.ShimUnderBucket or Adjuster.ShimOverBucket or Adjuster.GradedBucket))
        {
            yield break;
        }

        for (int v = 0; v < local.Length; v++)
        {
            int valve = v;
            string group = engine.Valves[v].Group;
            double takes = minutes + (now.Plan.Opened.Contains(group) ? 0 : request.Plan.Costs.AccessOf(group));
            yield return new(ActionKind.Depth, v, null, Alone(now, local[v], v) - takes, () => new(ActionKind.Depth, Saving(now, valve), takes, valve, [], null, group, []));
        }
    }

    private static double Saving(Outlook now, int v) => Math.Max(0, now.Minutes - Shown(now, v).Average(x =>
        now.MinutesWith(now.Estimate.With(v, new ValveReadings(values: [new DirectValue(x, Uncertainty)])))));

    private static double Alone(Outlook now, LocalWorth local, int v)
    {
        if (local.Spread < Uncertainty / 2)
        {
            return 0;
        }

        double shift = now.Request.Check.ShiftAt(v).Millimetres;
        double[] gaps = [.. Enumerable.Range(0, local.Mass.Length).Select(i => now.Estimate.Valves[v].Grid.At(i) + shift)];
        return local.Least - Shown(now, v).Average(x =>
        {
            double[] chances = Array.ConvertAll(gaps, gap => Math.Exp(-0.5 * Math.Pow((x - gap) / Uncertainty, 2)));
            return local.LeastUnder(chances, local.ChanceOf(chances));
        });
    }

    /// <summary>Gaps that a depth may show, each as likely as the next.</summary>
    private static double[] Shown(Outlook now, int v)
    {
        ClearanceDistribution valve = now.Estimate.Valves[v];
        double wider = Math.Sqrt(1 + Math.Pow(Uncertainty / valve.StandardDeviation, 2));
        return [.. Enumerable.Range(0, Answers).Select(k =>
            valve.Mean + ((valve.Quantile((k + 0.5) / Answers) - valve.Mean) * wider) + now.Request.Check.ShiftAt(v).Millimetres)];
    }
}
