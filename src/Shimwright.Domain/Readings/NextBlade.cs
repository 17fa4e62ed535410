namespace Shimwright.Domain.Readings;

/// <summary>The trial that would settle most: which valve, which blade.</summary>
/// <param name="Valve">The valve's place in the engine, from 0.</param>
/// <param name="Blade">The blade's thickness, mm.</param>
/// <param name="Gain">Expected fall of the entropy of that valve's outcome, in nats.</param>
public sealed record NextBlade(int Valve, double Blade, double Gain)
{
    private const double Tie = 1e-12;

    /// <summary>Blades that are weighed at a valve, and places of its clearance that are told apart in it.</summary>
    private const int MostBlades = 60, MostPlaces = 3000;

    private const double SameBlade = 1e-9;
    private static readonly Feel[] Feels = Enum.GetValues<Feel>();

    /// <summary>
    /// Over the valves that are unsettled and the blades not yet tried on them: the trial whose result is expected
    /// to lower the entropy of {below the band, in it, above it} most. Ties go to the earlier valve, then the thinner blade.
    /// </summary>
    /// <param name="estimate">What is known so far.</param>
    /// <param name="blades">The person's blades, mm.</param>
    /// <returns>The trial, or null where no valve is unsettled or every blade has been tried.</returns>
    public static NextBlade? Suggest(EngineEstimate estimate, IReadOnlyCollection<double> blades) => Best(ForEach(estimate, blades));

    /// <summary>The best of several suggestions; ties go to the earlier one.</summary>
    /// <param name="suggestions">Suggestions, some of them null.</param>
    /// <returns>The one with the greatest gain, or null where there is none.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="suggestions"/> is null.</exception>
    public static NextBlade? Best(IEnumerable<NextBlade?> suggestions)
    {
        ArgumentNullException.ThrowIfNull(suggestions);
        NextBlade? best = null;
        foreach (NextBlade next in suggestions.OfType<NextBlade>())
        {
            best = best is null || next.Gain > best.Gain + Tie ? next : best;
        }

        return best;
    }

    /// <summary>The same for every valve on its own.</summary>
    /// <param name="estimate">What is known so far.</param>
    /// <param name="blades">The person's blades, mm.</param>
    /// <returns>In the engine's order; null at a valve that is settled or at which every blade has been tried.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="estimate"/> or <paramref name="blades"/> is null.</exception>
    public static IReadOnlyList<NextBlade?> ForEach(EngineEstimate estimate, IReadOnlyCollection<double> blades)
    {
        ArgumentNullException.ThrowIfNull(estimate);
        ArgumentNullException.ThrowIfNull(blades);
        double[] thinFirst = [.. blades.Order()];
        return [.. estimate.Valves.Select((_, v) => At(estimate, v, thinFirst))];
    }

    private static NextBlade? At(EngineEstimate estimate, int v, double[] thinFirst)
    {
        ClearanceDistribution valve = estimate.Valves[v];
        if (ClearanceEstimate.StatusOf(valve.InBand) != ClearanceStatus.Unsettled)
        {
            return null;
        }

        IReadOnlyList<BladeTrial> tried = estimate.Check.Readings[v].Trials;
        var places = new Places(valve, MostPlaces);
        double[][] outcomes = Array.ConvertAll(Outcomes(valve), o => places.Sums(o));
        return Best(NearestTo(thinFirst, valve.Mean + estimate.Check.ShiftAt(v).Millimetres)
            .Where(b => !tried.Any(t => Math.Abs(t.Blade - b) < SameBlade))
            .Select(b => new NextBlade(v, b, ExpectedGain(places, outcomes, b, estimate.Check.ShiftAt(v).Millimetres, estimate.Check.Feel))));
    }

    /// <summary>Of very many blades those nearest to the gap that is expected, thinnest first.</summary>
    private static IEnumerable<double> NearestTo(double[] thinFirst, double gap) => thinFirst.Length <= MostBlades
        ? thinFirst
        : thinFirst.OrderBy(b => Math.Abs(b - gap)).Take(MostBlades).Order();

    private static double[][] Outcomes(ClearanceDistribution valve) =>
    [
        valve.MassOver(double.NegativeInfinity, valve.Band.Low),
        valve.MassOver(valve.Band.Low, valve.Band.High),
        valve.MassOver(valve.Band.High, double.PositiveInfinity),
    ];

    /// <summary>The mutual information of the trial's feel and the valve's outcome.</summary>
    private static double ExpectedGain(Places places, double[][] outcomes, double blade, double shift, FeelProfile fingers)
    {
        double before = Entropy(outcomes.Select(o => o.Sum()));
        double after = 0;
        foreach (Feel feel in Feels)
        {
            double[] joint = new double[outcomes.Length];
            for (int i = 0; i < places.Count; i++)
            {
                double gap = places.At(i) + shift;
                double chance = fingers.Chance(feel, gap, blade);
                for (int o = 0; o < joint.Length; o++)
                {
                    joint[o] += chance * outcomes[o][i];
                }
            }

            double felt = joint.Sum();
            after += felt * Entropy(joint.Select(j => j / felt));
        }

        return before - after;
    }

    private static double Entropy(IEnumerable<double> probabilities) =>
        -probabilities.Where(p => p > 0).Sum(p => p * Math.Log(p));
}
