using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;

namespace Shimwright.Bench.Due;

/// <summary>What the engines of one card teach of its rates, all together.</summary>
public static class CardPool
{
    /// <summary>
    /// The most engines that a card's rates are worked out from; of a larger fleet so many are drawn by lot. The mean of 500 rates is uncertain by a twentieth of
    /// their spread.
    /// </summary>
    public const int MostEngines = 500;

    /// <summary>Rates that move by less than this share of the card's spread leave the other engines' forecasts as they are.</summary>
    private const double Noticed = 0.1;

    private const double LeastUnit = 1e-12;

    /// <summary>The rates with these engines as they are now and the others as they were kept.</summary>
    /// <param name="now">What these engines say.</param>
    /// <param name="others">What the others said.</param>
    /// <param name="known">The rates that were held so far.</param>
    /// <param name="card">What the card holds usual; null where no engine has anything to say.</param>
    /// <returns>The rates; the same ones where nothing has moved that matters.</returns>
    internal static CardRates Of(IReadOnlyList<SideEvidence> now, IReadOnlyList<SideEvidence> others, CardRates known, UsualWear? card)
    {
        SideEvidence[] all = [.. now, .. others];
        TaughtRates taught = new(PooledRates.Of([.. all.Select(e => e.Intake)]), PooledRates.Of([.. all.Select(e => e.Exhaust)]));
        double unit = card is null ? double.PositiveInfinity : Math.Max(card.RateOf(ValveSide.Intake).StandardDeviation, LeastUnit);
        return Moved(known.Taught.Intake, taught.Intake, unit) || Moved(known.Taught.Exhaust, taught.Exhaust, unit)
            ? new(known.Version + 1, taught)
            : known;
    }

    private static bool Moved(RateDistribution? before, RateDistribution? now, double unit) =>
        before is { } b && now is { } n
            ? Math.Abs(b.Mean - n.Mean) > Noticed * unit || Math.Abs(b.StandardDeviation - n.StandardDeviation) > Noticed * unit
            : before is null != now is null;
}
