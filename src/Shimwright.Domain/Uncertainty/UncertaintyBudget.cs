using MathNet.Numerics.Distributions;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Uncertainty;

/// <summary>
/// The uncertainty of a result, line by line (JCGM 100:2008, the Guide to the expression of uncertainty in measurement):
/// combined by 5.1.2 or, where inputs are correlated, 5.2.2; effective degrees of freedom by Welch and Satterthwaite, G.4.1;
/// coverage factor from Student's t, G.6.4.
/// </summary>
public sealed class UncertaintyBudget
{
    /// <summary>The confidence that is used unless another is asked for.</summary>
    public const double UsualConfidence = 0.95;

    /// <summary>Makes a budget.</summary>
    /// <param name="value">The result.</param>
    /// <param name="lines">What it is computed from, at least one.</param>
    /// <param name="correlations">Lines whose errors go together; independent where left out.</param>
    /// <exception cref="ArgumentNullException"><paramref name="lines"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="value"/> is not finite, or <paramref name="lines"/> are none.</exception>
    /// <exception cref="ArgumentException">One of <paramref name="correlations"/> names a line that is not there.</exception>
    public UncertaintyBudget(double value, IEnumerable<BudgetLine> lines, IEnumerable<InputCorrelation>? correlations = null)
    {
        ArgumentNullException.ThrowIfNull(lines);
        Value = Guard.Finite(value);
        Lines = [.. lines];
        ArgumentOutOfRangeException.ThrowIfZero(Lines.Count, nameof(lines));
        Correlations = [.. correlations ?? []];
        if (Correlations.Any(c => c.First >= Lines.Count || c.Second >= Lines.Count))
        {
            throw new ArgumentException("A correlation names a line that is not there.", nameof(correlations));
        }

        double independent = Lines.Sum(l => Squares.Of(l.Contribution));
        double together = Correlations.Sum(c => 2 * c.Coefficient * Part(c.First) * Part(c.Second));
        Combined = Math.Sqrt(Math.Max(0, independent + together));
    }

    /// <summary>The result.</summary>
    public double Value { get; }

    /// <summary>What it is computed from.</summary>
    public IReadOnlyList<BudgetLine> Lines { get; }

    /// <summary>Lines whose errors go together.</summary>
    public IReadOnlyList<InputCorrelation> Correlations { get; }

    /// <summary>The combined standard uncertainty.</summary>
    public double Combined { get; }

    /// <summary>
    /// The effective degrees of freedom, positive infinity where nothing bounds them; null where inputs are correlated, for
    /// which the formula does not hold.
    /// </summary>
    public double? EffectiveDegrees
    {
        get
        {
            if (Correlations.Count > 0)
            {
                return null;
            }

            double sum = Lines.Sum(l => Squares.Of(Squares.Of(l.Contribution)) / l.Input.Degrees);
            return sum > 0 ? Squares.Of(Squares.Of(Combined)) / sum : double.PositiveInfinity;
        }
    }

    /// <summary>A budget of a sum of quantities, each times its sensitivity.</summary>
    /// <param name="lines">The terms.</param>
    /// <returns>The budget, whose value is the sum.</returns>
    public static UncertaintyBudget OfSum(IEnumerable<BudgetLine> lines)
    {
        BudgetLine[] all = [.. lines];
        return new(all.Sum(l => l.Sensitivity * l.Input.Value), all);
    }

    /// <summary>The share of a line in the square of the combined uncertainty; correlations left out.</summary>
    /// <param name="line">One of the lines.</param>
    /// <returns>From 0 to 1; 0 where there is no uncertainty at all.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="line"/> is null.</exception>
    public double ShareOf(BudgetLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        double all = Lines.Sum(l => Squares.Of(l.Contribution));
        return all > 0 ? Squares.Of(line.Contribution) / all : 0;
    }

    /// <summary>
    /// The factor by which the combined uncertainty is multiplied for a confidence: Student's t for the effective degrees of
    /// freedom, cut to a whole number (JCGM 100:2008, G.4.1, note 1); the normal law where they have no bound or are not known.
    /// </summary>
    /// <param name="confidence">Above 0 and below 1.</param>
    /// <returns>The factor.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="confidence"/> is outside its range.</exception>
    public double CoverageFactor(double confidence = UsualConfidence)
    {
        Guard.Within(confidence, double.Epsilon, 1 - 1e-12);
        double upper = (1 + confidence) / 2;
        double degrees = Math.Floor(EffectiveDegrees ?? double.PositiveInfinity);
        return degrees > ManyDegrees ? StandardNormal.Quantile(upper) : StudentT.InvCDF(0, 1, Math.Max(InputQuantity.FewestDegrees, degrees), upper);
    }

    /// <summary>The expanded uncertainty: coverage factor times combined uncertainty.</summary>
    /// <param name="confidence">Above 0 and below 1.</param>
    /// <returns>The half-width of the interval about the result.</returns>
    public double Expanded(double confidence = UsualConfidence) => CoverageFactor(confidence) * Combined;

    /// <summary>The correlation of two results through the quantities that both are computed from (JCGM 100:2008, F.1.2.3).</summary>
    /// <param name="other">Another budget.</param>
    /// <returns>From -1 to 1; 0 where they share nothing, or either has no uncertainty.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="other"/> is null.</exception>
    public double CorrelationWith(UncertaintyBudget other)
    {
        ArgumentNullException.ThrowIfNull(other);
        double shared = Lines.Sum(mine => other.Lines
            .Where(theirs => ReferenceEquals(mine.Input, theirs.Input))
            .Sum(theirs => mine.Sensitivity * theirs.Sensitivity * Squares.Of(mine.Input.Uncertainty)));
        double scale = Combined * other.Combined;
        return scale > 0 ? Math.Clamp(shared / scale, -1, 1) : 0;
    }

    /// <summary>Degrees of freedom at which Student's t and the normal law agree to five digits.</summary>
    private const double ManyDegrees = 100_000;

    private double Part(int line) => Lines[line].Sensitivity * Lines[line].Input.Uncertainty;
}
