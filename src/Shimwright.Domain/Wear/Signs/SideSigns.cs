using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Wear.Signs;

/// <summary>
/// All intake valves fast while the exhausts are not: dust comes in with the air. Evidence is how often the intakes of an
/// engine with nothing wrong look as fast; they also have to be as much faster than the exhausts, and most of them fast.
/// </summary>
internal static class IntakesFastSign
{
    public static IEnumerable<WearSign> Look(SignScene scene, double limit)
    {
        int[] intakes = [.. scene.OfSide(ValveSide.Intake)];
        int[] exhausts = [.. scene.OfSide(ValveSide.Exhaust)];
        if (intakes.Length == 0 || exhausts.Length == 0)
        {
            yield break;
        }

        double evidence = Tail.OfBoth(
            TailOf([.. intakes.Select(scene.RateAt)], [.. exhausts.Select(scene.RateAt)]),
            TailOf([.. intakes.Select(scene.MissAt)], [.. exhausts.Select(scene.MissAt)]));
        if (evidence <= limit)
        {
            yield return new WearSign(SignKind.IntakesFast, intakes, evidence);
        }
    }

    /// <summary>The greater of two tails: that the intakes are fast, and that they are faster than the exhausts.</summary>
    private static double TailOf(IReadOnlyCollection<double?> intakes, IReadOnlyCollection<double?> exhausts)
    {
        if (SignScene.RootMean(intakes) is not { } fast || SignScene.RootMean(exhausts) is not { } others || 2 * intakes.Count(z => z > 0) <= intakes.Count)
        {
            return 1;
        }

        double difference = (fast / Math.Sqrt(intakes.Count)) - (others / Math.Sqrt(exhausts.Count));
        double spread = Math.Sqrt((1.0 / intakes.Count) + (1.0 / exhausts.Count));
        return Math.Max(Tail.Above(fast), Tail.Above(difference / spread));
    }
}

/// <summary>All valves of both sides fast: evidence is the greater of the two sides' tails.</summary>
internal static class AllFastSign
{
    public static IEnumerable<WearSign> Look(SignScene scene, double limit)
    {
        int[] all = [.. Enumerable.Range(0, scene.Valves.Count)];
        double evidence = scene.TailOfMean(all);
        double slowest = scene.Valves.Select(v => v.Side).Distinct().Max(side => scene.TailOfMean([.. scene.OfSide(side)]));
        if (evidence <= limit && slowest <= LeastSide)
        {
            yield return new WearSign(SignKind.AllFast, all, evidence);
        }
    }

    /// <summary>The tail below which a side takes part: with both sides at this, the engine as a whole is at the usual limit.</summary>
    private const double LeastSide = 0.2;
}
