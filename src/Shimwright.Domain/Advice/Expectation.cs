namespace Shimwright.Domain.Advice;

/// <summary>
/// What is to come after an action, outcome by outcome, as far as it has to be known: an action is given up as soon as it cannot pay, or
/// cannot be the best.
/// </summary>
/// <remarks>
/// An outcome that was not looked at yet counts as the least that it can come to (<see cref="Outlook.LeastAfter"/>). Outcomes that are likeliest
/// come first, so that the bound falls fastest.
/// </remarks>
internal static class Expectation
{
    /// <summary>Sums in another order differ by less, minutes.</summary>
    private const double Rounding = 1e-9;

    /// <summary>What the best plan comes to after each outcome of an action.</summary>
    /// <param name="now">How things stand.</param>
    /// <param name="beforehand">Minutes that are spent whatever comes of it.</param>
    /// <param name="chances">The chance of each outcome; asked for once each, before its minutes.</param>
    /// <param name="order">The outcomes in the order in which they are looked at.</param>
    /// <param name="after">What the best plan comes to after an outcome, minutes.</param>
    /// <param name="least">What the best plan comes to at least, whatever the outcome, minutes.</param>
    /// <param name="toSave">What the action has to save, minutes; -∞ where all is to be known.</param>
    /// <returns>Minutes outcome by outcome; null where the action saves less than it has to.</returns>
    public static double[]? Minutes(
        Outlook now, double beforehand, Func<int, double> chances, IEnumerable<int> order, Func<int, double> after, double least, double toSave)
    {
        int[] all = [.. order];
        double[] minutes = new double[all.Length];
        (double expected, double left) = (beforehand, 1);
        for (int k = 0; k < all.Length; k++)
        {
            if (now.Minutes - expected - (Math.Max(0, left) * least) < toSave - Rounding)
            {
                now.Spare(all.Length - k);
                return null;
            }

            double chance = chances(all[k]);
            minutes[all[k]] = after(all[k]);
            expected += chance * minutes[all[k]];
            left -= chance;
        }

        return now.Minutes - expected < toSave - Rounding ? null : minutes;
    }

    /// <summary>The places of some weights, the greatest first; in their own order where nothing is to be spared.</summary>
    public static IEnumerable<int> Order(IReadOnlyList<double> weights, double toSave) => double.IsNegativeInfinity(toSave)
        ? Enumerable.Range(0, weights.Count)
        : Enumerable.Range(0, weights.Count).OrderByDescending(i => weights[i]);
}
