using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Drawer;

/// <summary>A stock and what it costs on average.</summary>
/// <param name="Level">How much to have.</param>
/// <param name="Cost">Expected cost of what is left over and of what is missing.</param>
public sealed record StockLevel(double Level, double Cost);

/// <summary>
/// How much to have of something whose demand is not known, where each piece left over costs <paramref name="holding"/> and each
/// piece missing <paramref name="shortage"/>: the newsvendor. With restocking after a lead time it is the base-stock level, for the
/// demand over the lead time and one period more (L. V. Snyder, Z.-J. M. Shen, Fundamentals of Supply Chain Theory, 2nd ed. 2019,
/// sections 4.3 and 4.4).
/// </summary>
/// <param name="holding">Cost of a piece left over, above 0.</param>
/// <param name="shortage">Cost of a piece missing, above 0.</param>
public sealed class Newsvendor(double holding, double shortage)
{
    private readonly double _holding = Guard.Within(holding, double.Epsilon, 1e12);
    private readonly double _shortage = Guard.Within(shortage, double.Epsilon, 1e12);

    /// <summary>The chance with which the best stock covers all that is wanted: shortage/(shortage + holding).</summary>
    public double CriticalRatio => _shortage / (_shortage + _holding);

    /// <summary>The best stock against a normal demand.</summary>
    /// <param name="mean">Expected demand.</param>
    /// <param name="deviation">Its standard deviation, above 0.</param>
    /// <returns>The stock and its cost.</returns>
    public StockLevel BestForNormal(double mean, double deviation)
    {
        double level = Guard.Finite(mean) + (Guard.Within(deviation, double.Epsilon, 1e12) * StandardNormal.Quantile(CriticalRatio));
        return new(level, CostForNormal(level, mean, deviation));
    }

    /// <summary>What a stock costs on average against a normal demand.</summary>
    /// <param name="level">The stock.</param>
    /// <param name="mean">Expected demand.</param>
    /// <param name="deviation">Its standard deviation, above 0.</param>
    /// <returns>Expected cost.</returns>
    public double CostForNormal(double level, double mean, double deviation)
    {
        double z = (Guard.Finite(level) - Guard.Finite(mean)) / Guard.Within(deviation, double.Epsilon, 1e12);
        double missing = deviation * (StandardNormal.Density(z) - (z * StandardNormal.Cdf(-z)));
        return (_holding * (level - mean + missing)) + (_shortage * missing);
    }

    /// <summary>The best stock against any demand in whole pieces.</summary>
    /// <param name="demand">How many will be wanted.</param>
    /// <returns>The least stock of least cost, and that cost.</returns>
    public StockLevel BestFor(CountDistribution demand)
    {
        ArgumentNullException.ThrowIfNull(demand);
        int level = demand.Covering(CriticalRatio);
        return new(level, CostFor(level, demand));
    }

    /// <summary>What a stock costs on average against a demand in whole pieces.</summary>
    /// <param name="level">The stock, 0 or more.</param>
    /// <param name="demand">How many will be wanted.</param>
    /// <returns>Expected cost.</returns>
    public double CostFor(int level, CountDistribution demand)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(level);
        ArgumentNullException.ThrowIfNull(demand);
        double served = demand.ServedBy(level);
        return (_holding * (level - served)) + (_shortage * (demand.Mean - served));
    }

    /// <summary>The demand that a base-stock level has to cover, normal: that over the lead time and one period more.</summary>
    /// <param name="mean">Expected demand a period.</param>
    /// <param name="deviation">Its standard deviation a period.</param>
    /// <param name="leadTime">Periods between an order and its arrival, 0 or more.</param>
    /// <returns>Mean and standard deviation.</returns>
    public static (double Mean, double StandardDeviation) OverLeadTime(double mean, double deviation, int leadTime)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(leadTime);
        return (Guard.Finite(mean) * (leadTime + 1), Guard.Within(deviation, 0, 1e12) * Math.Sqrt(leadTime + 1));
    }

    /// <summary>The demand that a base-stock level has to cover, in whole pieces: that over the lead time and one period more.</summary>
    /// <param name="period">How many are wanted in a period, independent from one period to the next.</param>
    /// <param name="leadTime">Periods between an order and its arrival, 0 or more.</param>
    /// <returns>The law of the sum.</returns>
    public static CountDistribution OverLeadTime(CountDistribution period, int leadTime)
    {
        ArgumentNullException.ThrowIfNull(period);
        ArgumentOutOfRangeException.ThrowIfNegative(leadTime);
        return CountDistribution.Sum(Enumerable.Repeat(period, leadTime + 1));
    }
}
