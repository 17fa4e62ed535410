using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Drawer;

/// <summary>
/// A valve that will want a shim: which thickness would put it in the middle of its band, how sure that is today, and how far off
/// the middle it may land.
/// </summary>
public sealed record ThicknessWant
{
    /// <summary>Points at which what blurs the thickness is looked at, and how far apart they are, in its standard deviations.</summary>
    private const int BlurPoints = 4;

    private static readonly double[] BlurWeights = Weights();

    /// <summary>The chance of a clearance below and up to what stays.</summary>
    private readonly double _belowKept, _upToKept;

    /// <summary>The want with another chance of staying, and how often that one holds.</summary>
    private readonly ThicknessWant? _other;
    private readonly double _share;

    /// <summary>Makes a want.</summary>
    /// <param name="middle">Expected thickness for the middle of the band, mm.</param>
    /// <param name="spread">Standard deviation of that thickness as it is foreseen today, mm, above 0.</param>
    /// <param name="tolerance">How far off it a thickness may be, mm either way: half the band over the ratio; above 0.</param>
    /// <param name="chance">The chance that the valve is asked at all, 0 to 1.</param>
    /// <param name="kept">Thicknesses, from and to in mm, for which the shim in place stays; null where one is wanted in any case.</param>
    /// <param name="blur">Standard deviation of how thick the shim in place will be found against what is known of it, mm: it moves the thickness wanted, not the clearance.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="middle"/>, <paramref name="spread"/>, <paramref name="tolerance"/>, <paramref name="chance"/>, <paramref name="blur"/> or <paramref name="kept"/> is outside its range.</exception>
    public ThicknessWant(double middle, double spread, double tolerance, double chance = 1, (double From, double To)? kept = null, double blur = 0)
    {
        Middle = Guard.Finite(middle);
        StandardDeviation = Guard.Within(spread, 1e-6, 10);
        Tolerance = Guard.Within(tolerance, 1e-6, 10);
        Chance = Guard.Within(chance, 0, 1);
        Blur = Guard.Within(blur, 0, 10);
        if (kept is { } stays)
        {
            Guard.Within(stays.To, Guard.Finite(stays.From), double.MaxValue, nameof(kept));
            Kept = stays;
            _belowKept = NormalTable.Cdf((stays.From - Middle) / StandardDeviation);
            _upToKept = NormalTable.Cdf((stays.To - Middle) / StandardDeviation);
        }
    }

    private ThicknessWant(ThicknessWant one, ThicknessWant other, double share)
        : this(one.Middle, one.StandardDeviation, one.Tolerance, one.Chance, one.Kept, one.Blur)
    {
        _other = other;
        _share = Guard.Within(share, 0, 1);
    }

    /// <summary>Expected thickness for the middle of the band, mm.</summary>
    public double Middle { get; }

    /// <summary>Standard deviation of that thickness as it is foreseen today, mm.</summary>
    public double StandardDeviation { get; }

    /// <summary>How far off it a thickness may be, mm.</summary>
    public double Tolerance { get; }

    /// <summary>The chance that the valve is asked at all.</summary>
    public double Chance { get; }

    /// <summary>Thicknesses for which the shim in place stays, mm; null where one is wanted in any case.</summary>
    public (double From, double To)? Kept { get; }

    /// <summary>Standard deviation of how thick the shim in place will be found, mm.</summary>
    public double Blur { get; }

    /// <summary>The chance that the valve will want a shim.</summary>
    public double Wanted => Mixed(Chance * Range(double.NegativeInfinity, double.PositiveInfinity), _other?.Wanted);

    /// <summary>Standard deviation of the thickness with all that moves it, mm.</summary>
    public double WholeStandardDeviation => Squares.CombinedStandardUncertainty(StandardDeviation, Blur);

    /// <summary>The chance that the valve will want a shim of a thickness in a range.</summary>
    /// <param name="from">Above this, mm.</param>
    /// <param name="to">Up to this, mm.</param>
    /// <returns>From 0 to 1.</returns>
    public double Between(double from, double to) => Mixed(OwnBetween(from, to), _other?.Between(from, to));

    /// <summary>The want of the same valve where what stays may be either of two.</summary>
    /// <param name="other">The want with the other.</param>
    /// <param name="share">How often the other holds, 0 to 1.</param>
    /// <returns>The mixture.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="other"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="share"/> is outside its range.</exception>
    public ThicknessWant Or(ThicknessWant other, double share)
    {
        ArgumentNullException.ThrowIfNull(other);
        return share > 0 ? new(this, other, share) : this;
    }

    /// <summary>The chance that it will want a shim no thicker than this, from tables, to 1e-9: where it is wanted a million times.</summary>
    internal double UpTo(double thickness) => Mixed(OwnUpTo(thickness), _other?.UpTo(thickness));

    private double Mixed(double own, double? other) => other is { } o ? ((1 - _share) * own) + (_share * o) : own;

    private double OwnBetween(double from, double to)
    {
        if (Blur == 0 || Kept is null)
        {
            double spread = Kept is null ? WholeStandardDeviation : StandardDeviation;
            return Chance * (Kept is null ? StandardNormal.Between((from - Middle) / spread, (to - Middle) / spread) : Range(from, to));
        }

        // Equal steps of a normal law: within 0.001 also where the shim's error and the edge of what stays meet.
        double sum = 0;
        for (int i = 0; i < BlurWeights.Length; i++)
        {
            double error = (i - BlurPoints) * Blur;
            sum += BlurWeights[i] * Range(from - error, to - error);
        }

        return Chance * Math.Min(1, sum);
    }

    private double OwnUpTo(double thickness)
    {
        if (Kept is not { } kept)
        {
            return Chance * NormalTable.Cdf((thickness - Middle) / WholeStandardDeviation);
        }

        if (Blur == 0)
        {
            return Chance * Quick(thickness, kept);
        }

        double sum = 0;
        for (int i = 0; i < BlurWeights.Length; i++)
        {
            sum += BlurWeights[i] * Quick(thickness - ((i - BlurPoints) * Blur), kept);
        }

        return Chance * Math.Min(1, sum);
    }

    private double Quick(double thickness, (double From, double To) kept) =>
        thickness <= kept.From ? NormalTable.Cdf((thickness - Middle) / StandardDeviation)
        : thickness <= kept.To ? _belowKept
        : NormalTable.Cdf((thickness - Middle) / StandardDeviation) - _upToKept + _belowKept;

    private static double[] Weights()
    {
        double[] weights = [.. Enumerable.Range(-BlurPoints, (2 * BlurPoints) + 1).Select(i => StandardNormal.Density(i))];
        double total = weights.Sum();
        return [.. weights.Select(w => w / total)];
    }

    /// <summary>The chance of a range less what stays, the shim in place being as thick as is known.</summary>
    private double Range(double from, double to)
    {
        double all = Normal(from, to);
        return Kept is { } kept && Math.Min(to, kept.To) is var high && Math.Max(from, kept.From) is var low && high > low
            ? Math.Max(0, Normal(from, Math.Max(from, low)) + Normal(Math.Min(to, high), to))
            : all;
    }

    private double Normal(double from, double to) => to > from ? StandardNormal.Between((from - Middle) / StandardDeviation, (to - Middle) / StandardDeviation) : 0;
}
