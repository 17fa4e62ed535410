using Shimwright.Domain.Uncertainty;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Uncertainty;

/// <summary>
/// JCGM 100:2008 (GUM), H.1, calibration of an end gauge, as a budget (data/published/gum-annex-h). Published digits as public
/// test files quote them clause by clause; full digits from MSLNZ/GTC, test/test_uncertain_real_dof.py, commit 1c165fce.
/// </summary>
[Proof(Formulas.Budget, Evidence.Published, "JCGM 100:2008, H.1: calibration of an end gauge.")]
public class EndGaugeTests
{
    [Theory]
    [PublishedFile("gum-annex-h/h1.csv")]
    public void Budget_GumH1_GivesThePublishedUncertainty(PublishedFile file)
    {
        UncertaintyBudget budget = Budget(file);

        Assert.Equal(50_000_838, budget.Value, 1e-6); // H.1.5: 50.000 838 mm
        Assert.Equal(32, budget.Combined, 0.5); // H.1.4
        Assert.Equal(1002, budget.Combined * budget.Combined, 1.0);
        Assert.Equal([25, 2.9, 16.6], [Contribution(budget, "l_s"), Contribution(budget, "delta_alpha"), Contribution(budget, "delta_theta")], Near);
        Assert.Equal([0, 0, 0], [Contribution(budget, "alpha_s"), Contribution(budget, "theta_mean"), Contribution(budget, "theta_cyclic")]);

        static bool Near(double a, double b) => Math.Abs(a - b) <= 0.05;
    }

    [Theory]
    [PublishedFile("gum-annex-h/h1.csv")]
    public void Budget_GumH1_GivesThePublishedDegreesAndCoverage(PublishedFile file)
    {
        UncertaintyBudget budget = Budget(file);

        Assert.Equal(16.7, budget.EffectiveDegrees!.Value, 0.06); // H.1.6, with rounded parts; cut to 16
        Assert.Equal(2.92, budget.CoverageFactor(0.99), 0.005);
        // H.1.6 states 93 nm, which is 2.92 times the rounded 32 nm; unrounded it is 92.
        Assert.Equal(93, budget.CoverageFactor(0.99) * Math.Round(budget.Combined), 0.5);
        Assert.Equal(92.47, budget.Expanded(0.99), 0.02);
    }

    [Theory]
    [PublishedFile("gum-annex-h/h1.csv")]
    public void Budget_GumH1_AgreesToElevenDigits(PublishedFile file)
    {
        UncertaintyBudget budget = Budget(file);
        UncertaintyBudget difference = UncertaintyBudget.OfSum(budget.Lines.Where(l => l.Input.Name.StartsWith('d') && !l.Input.Name.StartsWith("delta", StringComparison.Ordinal)));

        Assert.Equal(31.6637674111, budget.Combined, 1e-9);
        Assert.Equal(16.7521475092, budget.EffectiveDegrees!.Value, 1e-9);
        Assert.Equal(9.68194195397, difference.Combined, 1e-10);
        Assert.Equal(25.4472507774, difference.EffectiveDegrees!.Value, 1e-9);
        Assert.Equal(2.88675134595, Contribution(budget, "delta_alpha"), 1e-10);
        Assert.Equal(16.5988202392, Contribution(budget, "delta_theta"), 1e-10);
    }

    // JCGM 100:2008, G.4.1, example: relative uncertainties 0.25, 0.57 and 0.82 % with 9, 4 and 14 degrees of freedom.
    [Fact]
    public void Budget_GumG41_GivesThePublishedDegrees()
    {
        UncertaintyBudget budget = UncertaintyBudget.OfSum(
            [new(new("a", 0, 0.25, 9), 1), new(new("b", 0, 0.57, 4), 1), new(new("c", 0, 0.82, 14), 1)]);

        Assert.Equal(1.03, budget.Combined, 0.005);
        Assert.Equal(19.0, budget.EffectiveDegrees!.Value, 0.05);
        Assert.Equal(18.9987, budget.EffectiveDegrees!.Value, 0.00005); // computed in numpy
        Assert.Equal(2.10, budget.CoverageFactor(), 0.005); // t95(18): the rule cuts 18.9987; the text's 2.09 is t95(19)
        Assert.Equal(2.2, budget.Expanded(), 0.05);
    }

    // JCGM 100:2008, table G.2: t for 16 degrees of freedom at 95, 95.45 and 99 %.
    [Theory]
    [InlineData(0.95, 2.12)]
    [InlineData(0.9545, 2.17)]
    [InlineData(0.99, 2.92)]
    public void CoverageFactor_SixteenDegrees_IsThatOfTableG2(double confidence, double t) =>
        Assert.Equal(t, UncertaintyBudget.OfSum([new(new("x", 0, 1, 16), 1)]).CoverageFactor(confidence), 0.005);

    private static double Contribution(UncertaintyBudget budget, string name) => budget.Lines.Single(l => l.Input.Name == name).Contribution;

    /// <summary>The model at the inputs is l_s + d, since δα and δθ are nought.</summary>
    private static UncertaintyBudget Budget(PublishedFile file) => UncertaintyBudget.OfSum(PublishedRows.Rows(file).Select(r => new BudgetLine(
        new InputQuantity(r["quantity"], r.Number("value"), r.Number("u"), r["degrees"].Length == 0 ? double.PositiveInfinity : r.Number("degrees")),
        r.Number("sensitivity"))));
}
