using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// How one person's fingers turn the play d = clearance - blade into a feel: an ordered probit with three
/// thresholds. The defaults are common practice, no source.
/// </summary>
public sealed record FeelProfile
{
    /// <summary>The default chance that a bucket is judged wrongly, each way. Common practice, no source.</summary>
    private const double BucketSlip = 0.01;

    /// <summary>The play over which a bucket goes from stuck to turning, mm. Common practice, no source.</summary>
    internal const double BucketSpread = 0.010;

    /// <summary>The least and greatest threshold, mm.</summary>
    public const double LeastThreshold = -0.2, GreatestThreshold = 0.2;

    /// <summary>The least and greatest spread, mm.</summary>
    public const double LeastSpread = 0.001, GreatestSpread = 0.1;

    /// <summary>The least and greatest share of slips.</summary>
    public const double LeastSlip = 0, GreatestSlip = 0.5;

    /// <summary>The greatest standard uncertainty of a blade, mm (the least is 0).</summary>
    public const double GreatestBladeUncertainty = 0.05;

    /// <summary>The greatest doubt about the thresholds' common place, mm (the least is 0).</summary>
    public const double GreatestDoubt = 0.05;

    /// <summary>The doubt about fingers that were not calibrated, mm. Common practice, no source.</summary>
    public const double UsualDoubt = 0.005;

    /// <summary>Keeps the chance of a feel off 0 where a profile has no slips, so that readings that contradict each other still have an answer.</summary>
    private const double LeastChance = 1e-12;

    /// <summary>Makes a profile.</summary>
    /// <param name="firm">Play at which a blade just enters, mm.</param>
    /// <param name="light">Play at which heavy drag turns into light drag, mm; above <paramref name="firm"/>.</param>
    /// <param name="loose">Play at which drag ends, mm; above <paramref name="light"/>.</param>
    /// <param name="spread">Standard deviation of the person's feel, mm.</param>
    /// <param name="slip">Share of trials whose feel says nothing (misread blade, slip of the tongue).</param>
    /// <param name="blade">Standard uncertainty of one blade's thickness, mm.</param>
    /// <param name="doubt">How well the thresholds are known together: standard deviation of one offset that all blades of a check share, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="firm"/>, <paramref name="light"/>, <paramref name="loose"/>, <paramref name="spread"/>, <paramref name="slip"/>, <paramref name="blade"/> or <paramref name="doubt"/> is outside its range.</exception>
    /// <exception cref="ArgumentException">The three thresholds do not rise.</exception>
    public FeelProfile(
        double firm = -0.025, double light = -0.005, double loose = 0.017,
        double spread = 0.006, double slip = 0.02, double blade = 0.003, double doubt = UsualDoubt)
    {
        Firm = Guard.Within(firm, LeastThreshold, GreatestThreshold);
        Light = Guard.Within(light, LeastThreshold, GreatestThreshold);
        Loose = Guard.Within(loose, LeastThreshold, GreatestThreshold);
        if (!(firm < light && light < loose))
        {
            throw new ArgumentException("The thresholds must rise: firm < light < loose.");
        }

        StandardDeviation = Guard.Within(spread, LeastSpread, GreatestSpread);
        Slip = Guard.Within(slip, LeastSlip, GreatestSlip);
        Blade = Guard.Within(blade, 0, GreatestBladeUncertainty);
        Doubt = Guard.Within(doubt, 0, GreatestDoubt);
    }

    /// <summary>The default fingers.</summary>
    public static FeelProfile Default { get; } = new();

    /// <summary>Play at which a blade just enters, mm.</summary>
    public double Firm { get; }

    /// <summary>Play at which heavy drag turns into light drag, mm.</summary>
    public double Light { get; }

    /// <summary>Play at which drag ends, mm.</summary>
    public double Loose { get; }

    /// <summary>Standard deviation of the person's feel, mm.</summary>
    public double StandardDeviation { get; }

    /// <summary>Share of trials whose feel says nothing.</summary>
    public double Slip { get; }

    /// <summary>Standard uncertainty of one blade's thickness, mm.</summary>
    public double Blade { get; }

    /// <summary>Standard deviation of the offset that all blades of a check share, mm.</summary>
    public double Doubt { get; }

    /// <summary>The same fingers without doubt about them: for a past in which the same person felt every time.</summary>
    internal FeelProfile WithoutDoubt => Doubt == 0 ? this : new(Firm, Light, Loose, StandardDeviation, Slip, Blade, 0);

    /// <summary>The same fingers without slips: for judging whether a reading is a surprise.</summary>
    internal FeelProfile WithoutSlips => Slip == 0 ? this : new(Firm, Light, Loose, StandardDeviation, 0, Blade, Doubt);

    /// <summary>The standard deviation with which a stack of <paramref name="leaves"/> is felt, mm.</summary>
    /// <param name="leaves">Leaves in the stack.</param>
    /// <returns>√(spread² + leaves·blade²).</returns>
    public double StandardDeviationOf(int leaves) => Math.Sqrt(Squares.Of(StandardDeviation) + (leaves * Squares.Of(Blade)));

    /// <summary>The chance of a feel; the four of one blade and gap add up to 1.</summary>
    /// <param name="feel">The feel.</param>
    /// <param name="gap">The gap at the time of the trial, mm.</param>
    /// <param name="blade">Nominal thickness of the stack, mm.</param>
    /// <param name="leaves">Leaves in the stack.</param>
    /// <returns>A probability, never 0.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="feel"/> is none of the four.</exception>
    public double Chance(Feel feel, double gap, double blade, int leaves = 1)
    {
        return ChanceAt(feel, gap - blade, StandardDeviationOf(leaves));
    }

    /// <summary>The chance of a feel at a play that is felt with this standard deviation, slips counted.</summary>
    internal double ChanceAt(Feel feel, double play, double spread)
    {
        double felt = feel switch
        {
            Feel.No => NormalTable.Cdf((Firm - play) / spread),
            Feel.Firm => NormalTable.Cdf((Light - play) / spread) - NormalTable.Cdf((Firm - play) / spread),
            Feel.Light => NormalTable.Cdf((Loose - play) / spread) - NormalTable.Cdf((Light - play) / spread),
            Feel.Loose => NormalTable.Cdf((play - Loose) / spread),
            _ => throw new ArgumentOutOfRangeException(nameof(feel)),
        };
        return WithSlips(felt);
    }

    /// <summary>The chances of all four feels at each of several plays, felt with this standard deviation, slips counted.</summary>
    /// <returns>A row a feel.</returns>
    internal double[][] ChancesAt(ReadOnlySpan<double> gaps, double blade, double spread)
    {
        double[][] chances = [new double[gaps.Length], new double[gaps.Length], new double[gaps.Length], new double[gaps.Length]];
        for (int i = 0; i < gaps.Length; i++)
        {
            double play = gaps[i] - blade;
            double no = NormalTable.Cdf((Firm - play) / spread);
            double atMostFirm = NormalTable.Cdf((Light - play) / spread);
            chances[(int)Feel.No][i] = WithSlips(no);
            chances[(int)Feel.Firm][i] = WithSlips(atMostFirm - no);
            chances[(int)Feel.Light][i] = WithSlips(NormalTable.Cdf((Loose - play) / spread) - atMostFirm);
            chances[(int)Feel.Loose][i] = WithSlips(NormalTable.Cdf((play - Loose) / spread));
        }

        return chances;
    }

    private double WithSlips(double felt) => Math.Max(LeastChance, ((1 - Slip) * felt) + (Slip / 4));

    /// <summary>The chance that the bucket turns by hand at this gap.</summary>
    /// <param name="gap">The gap, mm.</param>
    /// <returns>A probability from 0.01 to 0.99.</returns>
    public static double ChanceBucketTurns(double gap) =>
        ((1 - (2 * BucketSlip)) * StandardNormal.Cdf(gap / BucketSpread)) + BucketSlip;

    /// <summary>The shortest such length at any of several valves, each with one blade more.</summary>
    internal double FinestScaleOfAll(IEnumerable<ValveReadings> readings)
    {
        double more = 1 / Squares.Of(StandardDeviationOf(1));
        return readings.Min(r => 1 / Math.Sqrt((1 / Squares.Of(FinestScale(r))) + more));
    }

    /// <summary>The length over which the likelihood of these readings can change, mm; infinite where there are none.</summary>
    internal double FinestScale(ValveReadings readings)
    {
        double precision =
            readings.Trials.GroupBy(t => (Math.Round(t.Blade, 9), t.Leaves)).Sum(g => 1 / Squares.Of(BladeGroup.ScaleOf(this, g.Key.Leaves, g.Count())))
            + readings.Values.Sum(v => 1 / Squares.Of(v.Uncertainty))
            + (readings.BucketTurns.Count / Squares.Of(BucketSpread));
        return 1 / Math.Sqrt(precision);
    }
}
