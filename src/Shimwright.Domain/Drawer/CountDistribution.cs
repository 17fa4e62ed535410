using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Drawer;

/// <summary>How many of something will be wanted: the chance of 0, 1, 2, …</summary>
public sealed class CountDistribution
{
    /// <summary>The most that is considered.</summary>
    public const int Most = 100_000;

    /// <summary>Rounding within which a level counts as reached.</summary>
    private const double Negligible = 1e-15;

    /// <summary>How much of its tail a sum may lose each time something is added to it.</summary>
    private const double Lost = 1e-18;

    private readonly double[] _chances;

    private CountDistribution(double[] chances) => _chances = chances;

    /// <summary>Nothing is wanted.</summary>
    public static CountDistribution None { get; } = new([1]);

    /// <summary>The chance of each count, from 0.</summary>
    public IReadOnlyList<double> Chances => _chances;

    /// <summary>The expected count.</summary>
    public double Mean => _chances.Index().Sum(c => c.Index * c.Item);

    /// <summary>The variance of the count.</summary>
    public double Variance
    {
        get
        {
            double mean = Mean;
            return _chances.Index().Sum(c => Squares.Of(c.Index - mean) * c.Item);
        }
    }

    /// <summary>How many of several independent things happen (the Poisson-binomial law, by adding one after the other).</summary>
    /// <param name="chances">The chance of each, 0 to 1.</param>
    /// <returns>The law of their number.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="chances"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException">One of <paramref name="chances"/> is outside its range, or there are too many.</exception>
    public static CountDistribution OfChances(IEnumerable<double> chances)
    {
        ArgumentNullException.ThrowIfNull(chances);
        double[] law = [1];
        foreach (double chance in chances)
        {
            double p = Guard.Within(chance, 0, 1, nameof(chances));
            law = Add(law, [1 - p, p]);
        }

        return new(law);
    }

    /// <summary>The sum of independent counts.</summary>
    /// <param name="counts">The counts.</param>
    /// <returns>The law of their sum.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="counts"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="counts"/> come to more than <see cref="Most"/> together.</exception>
    public static CountDistribution Sum(IEnumerable<CountDistribution> counts)
    {
        ArgumentNullException.ThrowIfNull(counts);
        return new(counts.Aggregate(None._chances, (sum, c) => Add(sum, c._chances)));
    }

    /// <summary>The chance that no more than <paramref name="count"/> are wanted.</summary>
    /// <param name="count">Any number.</param>
    /// <returns>From 0 to 1.</returns>
    public double AtMost(int count) => count < 0 ? 0 : Math.Min(1, _chances.Take(count + 1).Sum());

    /// <summary>The least stock with which all that is wanted is there with this chance.</summary>
    /// <param name="level">The service level, 0 to 1.</param>
    /// <returns>A count.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="level"/> is outside its range.</exception>
    public int Covering(double level)
    {
        Guard.Within(level, 0, 1);
        double below = 0;
        for (int k = 0; k < _chances.Length - 1; k++)
        {
            below += _chances[k];
            if (below >= level - Negligible)
            {
                return k;
            }
        }

        return _chances.Length - 1;
    }

    /// <summary>How many of what is wanted a stock serves, on average.</summary>
    /// <param name="stock">The stock, 0 or more.</param>
    /// <returns>E[min(wanted, stock)].</returns>
    public double ServedBy(int stock) => _chances.Index().Sum(c => Math.Min(c.Index, stock) * c.Item);

    private static double[] Add(double[] one, double[] other)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(one.Length + other.Length, Most + 2, "counts");
        double[] sum = new double[one.Length + other.Length - 1];
        for (int i = 0; i < other.Length; i++)
        {
            for (int j = 0; j < one.Length; j++)
            {
                sum[i + j] += other[i] * one[j];
            }
        }

        return Cut(sum);
    }

    /// <summary>A law without its far tail, so that the sum of a thousand engines is no longer than what can happen.</summary>
    private static double[] Cut(double[] law)
    {
        int length = law.Length;
        double gone = 0;
        while (length > 1 && gone + law[length - 1] < Lost)
        {
            gone += law[--length];
        }

        return law[..length];
    }
}
