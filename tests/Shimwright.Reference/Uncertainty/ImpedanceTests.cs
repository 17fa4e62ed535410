using MathNet.Numerics.Statistics;
using Shimwright.Domain.Uncertainty;
using Shimwright.Reference.Numerics;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Uncertainty;

/// <summary>
/// JCGM 100:2008 (GUM), H.2: resistance, reactance and impedance from voltage, current and phase read together, as budgets with
/// correlated inputs (data/published/gum-annex-h). Full digits were computed in numpy from the same readings.
/// </summary>
[Proof(Formulas.Budget, Evidence.Published, "JCGM 100:2008, H.2: resistance and reactance, inputs that go together.")]
public class ImpedanceTests
{
    [Theory]
    [PublishedFile("gum-annex-h/h2.csv")]
    public void Budget_GumH2_GivesThePublishedUncertainties(PublishedFile file)
    {
        (UncertaintyBudget r, UncertaintyBudget x, UncertaintyBudget z) = Budgets(file);

        Assert.Equal([127.732, 219.847, 254.260], [r.Value, x.Value, z.Value], Near);
        Assert.Equal(0.071, r.Combined, 0.0005);
        Assert.Equal(0.295, x.Combined, 0.001); // 0.2956 before rounding
        Assert.Equal(0.236, z.Combined, 0.0005);
        Assert.Equal(0.0710714, r.Combined, 1e-7);
        Assert.Equal(0.2955817, x.Combined, 1e-7);
        Assert.Equal(0.2363361, z.Combined, 1e-7);
        Assert.Null(r.EffectiveDegrees);

        static bool Near(double a, double b) => Math.Abs(a - b) <= 0.0005;
    }

    /// <summary>The rule written out with every pair of parts, against which other tests hold the product's shortcuts, says the same as the budget.</summary>
    [Theory]
    [PublishedFile("gum-annex-h/h2.csv")]
    public void Budget_GumH2_IsTheRuleWrittenOut(PublishedFile file)
    {
        (UncertaintyBudget r, UncertaintyBudget x, UncertaintyBudget z) = Budgets(file);
        Assert.All([r, x, z], budget =>
        {
            double[,] correlations = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
            foreach (InputCorrelation pair in budget.Correlations)
            {
                correlations[pair.First, pair.Second] = correlations[pair.Second, pair.First] = pair.Coefficient;
            }

            Assert.Equal(
                CorrelatedParts.Combine([.. budget.Lines.Select(l => l.Sensitivity)], [.. budget.Lines.Select(l => l.Input.Uncertainty)], correlations),
                budget.Combined, 1e-12 * budget.Combined);
        });
    }

    private static (UncertaintyBudget R, UncertaintyBudget X, UncertaintyBudget Z) Budgets(PublishedFile file)
    {
        IReadOnlyList<IReadOnlyDictionary<string, string>> rows = PublishedRows.Rows(file);
        double[] volts = [.. rows.Select(r => r.Number("volts"))];
        double[] amperes = [.. rows.Select(r => r.Number("milliamperes") / 1000)];
        double[] radians = [.. rows.Select(r => r.Number("radians"))];
        InputQuantity v = Mean("V", volts), i = Mean("I", amperes), phase = Mean("phase", radians);
        InputCorrelation[] together =
        [
            new(0, 1, Correlation.Pearson(volts, amperes)),
            new(0, 2, Correlation.Pearson(volts, radians)),
            new(1, 2, Correlation.Pearson(amperes, radians)),
        ];
        double z = v.Value / i.Value;
        double cos = Math.Cos(phase.Value), sin = Math.Sin(phase.Value);
        return (
            new(z * cos, [new(v, cos / i.Value), new(i, -z * cos / i.Value), new(phase, -z * sin)], together),
            new(z * sin, [new(v, sin / i.Value), new(i, -z * sin / i.Value), new(phase, z * cos)], together),
            new(z, [new(v, 1 / i.Value), new(i, -z / i.Value), new(phase, 0)], together));
    }

    private static InputQuantity Mean(string name, double[] readings) =>
        new(name, readings.Mean(), readings.StandardDeviation() / Math.Sqrt(readings.Length), readings.Length - 1);
}
