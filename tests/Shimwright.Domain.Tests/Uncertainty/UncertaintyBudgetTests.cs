using Shimwright.Domain.Numerics;
using Shimwright.Domain.Uncertainty;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Uncertainty;

[Proof(Formulas.Budget, Evidence.Computed, "Roots of sums of squares and bounds of Welch and Satterthwaite.")]
public class UncertaintyBudgetTests
{
    [Fact]
    public void OfSum_IndependentParts_IsTheRootOfTheSumOfSquares()
    {
        UncertaintyBudget budget = UncertaintyBudget.OfSum([new(new("a", 10, 0.3), 1), new(new("b", 4, 0.4), -2)]);

        Assert.Equal(2, budget.Value);
        Assert.Equal(Squares.CombinedStandardUncertainty(0.3, 0.8), budget.Combined, 1e-15);
        Assert.Equal(double.PositiveInfinity, budget.EffectiveDegrees);
        Assert.Equal(1.959964, budget.CoverageFactor(), 1e-6);
        Assert.Equal(1, budget.Lines.Sum(budget.ShareOf), 1e-12);
    }

    [Fact]
    public void EffectiveDegrees_OfOnePart_AreItsOwn() =>
        Assert.Equal(7, UncertaintyBudget.OfSum([new(new("a", 1, 0.2, 7), -3), new(new("b", 1, 0), 1)]).EffectiveDegrees!.Value, 1e-12);

    [Fact]
    public void EffectiveDegrees_OfAlikeParts_AddUp() =>
        Assert.Equal(12, UncertaintyBudget.OfSum([new(new("a", 1, 0.2, 6), 1), new(new("b", 1, 0.2, 6), 1)]).EffectiveDegrees!.Value, 1e-12);

    [Fact]
    public void EffectiveDegrees_AnyParts_LieBetweenTheFewestAndTheSum()
    {
        var chance = new SeededChance(41);
        for (int k = 0; k < 200; k++)
        {
            InputQuantity[] parts = [.. Enumerable.Range(0, 4).Select(i => new InputQuantity($"p{i}", 0, chance.Uniform(0.01, 1), chance.Whole(1, 30)))];
            double degrees = UncertaintyBudget.OfSum(parts.Select(p => new BudgetLine(p, chance.Uniform(-2, 2)))).EffectiveDegrees!.Value;
            Assert.InRange(degrees, parts.Min(p => p.Degrees) - 1e-9, parts.Sum(p => p.Degrees) + 1e-9);
        }
    }

    [Fact]
    public void Combined_PartsThatMoveTogether_AddOrCancel()
    {
        BudgetLine[] lines = [new(new("a", 1, 0.3), 1), new(new("b", 1, 0.3), 1)];

        Assert.Equal(0.6, new UncertaintyBudget(2, lines, [new(0, 1, 1)]).Combined, 1e-12);
        Assert.Equal(0, new UncertaintyBudget(2, lines, [new(0, 1, -1)]).Combined, 1e-12);
    }

    [Fact]
    public void Combined_AnotherUnit_Scales()
    {
        UncertaintyBudget millimetres = UncertaintyBudget.OfSum([new(new("a", 1, 0.3, 5), 1), new(new("b", 2, 0.1, 9), 0.5)]);
        UncertaintyBudget micrometres = UncertaintyBudget.OfSum([new(new("a", 1000, 300, 5), 1), new(new("b", 2000, 100, 9), 0.5)]);

        Assert.Equal(millimetres.Value * 1000, micrometres.Value, 1e-9);
        Assert.Equal(millimetres.Expanded() * 1000, micrometres.Expanded(), 1e-9);
        Assert.Equal(millimetres.EffectiveDegrees!.Value, micrometres.EffectiveDegrees!.Value, 1e-9);
    }

    /// <summary>Means of few readings: a coverage factor of 1.96 would hold the truth in 82 % only.</summary>
    [Fact]
    public void Expanded_FewReadings_HoldsTheTruthAsOftenAsStated()
    {
        var chance = new SeededChance(42);
        int inside = 0;
        const int rounds = 20_000;
        for (int k = 0; k < rounds; k++)
        {
            double[] readings = [.. Enumerable.Range(0, 3).Select(_ => chance.Normal())];
            double mean = readings.Average();
            double u = Math.Sqrt(readings.Sum(r => (r - mean) * (r - mean)) / 2 / 3);
            inside += Math.Abs(mean) <= UncertaintyBudget.OfSum([new(new("mean", mean, u, 2), 1)]).Expanded() ? 1 : 0;
        }

        Assert.Equal(0.95, inside / (double)rounds, 4 * Math.Sqrt(0.95 * 0.05 / rounds));
    }

    [Fact]
    public void CorrelationWith_SharedParts_IsTheirShare()
    {
        var shared = new InputQuantity("shared", 1, 0.3);
        UncertaintyBudget one = UncertaintyBudget.OfSum([new(shared, 1), new(new("a", 1, 0.4), 1)]);
        UncertaintyBudget other = UncertaintyBudget.OfSum([new(shared, -1), new(new("a", 1, 0.4), 1)]);

        Assert.Equal(1, one.CorrelationWith(one), 1e-12);
        Assert.Equal(-0.09 / 0.25, one.CorrelationWith(other), 1e-12);
        Assert.Equal(0, one.CorrelationWith(UncertaintyBudget.OfSum([new(new("shared", 1, 0.3), 1)])));
    }

    [Fact]
    public void Budget_WithoutUncertainty_IsExact()
    {
        UncertaintyBudget exact = UncertaintyBudget.OfSum([new(new("a", 1, 0, 3), 1)]);

        Assert.Equal((0, 0, double.PositiveInfinity), (exact.Combined, exact.Expanded(), exact.EffectiveDegrees!.Value));
        Assert.Equal(0, exact.ShareOf(exact.Lines[0]));
        Assert.Equal(0, exact.CorrelationWith(exact));
    }

    [Fact]
    public void InputQuantity_OutsideItsRange_IsRefused()
    {
        Refuses.NotANumber("value", v => new InputQuantity("a", v, 1));
        Refuses.NotANumber("uncertainty", u => new InputQuantity("a", 1, u));
        Assert.Throws<ArgumentOutOfRangeException>("uncertainty", () => new InputQuantity("a", 1, -0.1));
        Assert.Throws<ArgumentOutOfRangeException>("degrees", () => new InputQuantity("a", 1, 0.1, 0.9));
        Assert.Throws<ArgumentOutOfRangeException>("degrees", () => new InputQuantity("a", 1, 0.1, double.NaN));
        Assert.Throws<ArgumentException>(() => new InputQuantity(" ", 1, 0.1));
        Refuses.NotANumber("sensitivity", s => new BudgetLine(new InputQuantity("a", 1, 0.1), s));
        Refuses.OutOfRange("coefficient", 1.5, "-1 to 1", () => new InputCorrelation(0, 1, 1.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => new InputCorrelation(1, 1, 0.5));
        Assert.Throws<ArgumentException>(() => new UncertaintyBudget(1, [new(new("a", 1, 1), 1)], [new(0, 1, 0.5)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => UncertaintyBudget.OfSum([]));
        Assert.Throws<ArgumentOutOfRangeException>(() => UncertaintyBudget.OfSum([new(new("a", 1, 1), 1)]).CoverageFactor(1));
    }
}
