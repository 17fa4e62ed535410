using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

[Proof(Formulas.Feel, Evidence.Computed, "Shares without covariates, weights, other units, categories turned round.")]
public class OrderedProbitTests
{
    [Fact]
    public void Fit_WithoutCovariates_GivesEachCategoryItsShare()
    {
        OrderedProbitFit fit = OrderedProbit.Fit([Of(0, 20), Of(1, 50), Of(2, 30)], 3);

        Assert.Equal(OrderedProbitStatus.Fitted, fit.Status);
        Assert.Equal(StandardNormal.Quantile(0.2), fit.Thresholds[0].Value, 1e-10);
        Assert.Equal(StandardNormal.Quantile(0.7), fit.Thresholds[1].Value, 1e-10);
        Assert.Equal((20 * Math.Log(0.2)) + (50 * Math.Log(0.5)) + (30 * Math.Log(0.3)), fit.LogLikelihood, 1e-9);
    }

    [Fact]
    public void Fit_Weights_StandForRepeatedObservations()
    {
        var chance = new SeededChance(6);
        List<OrderedObservation> apart = Simulated(chance, 200, 0.8);
        OrderedObservation[] together =
        [
            .. apart.GroupBy(o => (o.Category, X: o.Covariates[0])).Select(g => new OrderedObservation([g.Key.X], g.Key.Category, g.Count())),
        ];

        OrderedProbitFit one = OrderedProbit.Fit(apart, 4);
        OrderedProbitFit other = OrderedProbit.Fit(together, 4);

        Assert.Equal(one.LogLikelihood, other.LogLikelihood, 1e-9);
        Assert.Equal(one.Coefficients[0].Value, other.Coefficients[0].Value, 1e-8);
        Assert.Equal(one.Coefficients[0].StandardError, other.Coefficients[0].StandardError, 1e-8);
    }

    [Theory]
    [InlineData(1000)]
    [InlineData(0.001)]
    [InlineData(-1)]
    public void Fit_CovariateInAnotherUnit_ScalesItsCoefficientOnly(double unit)
    {
        List<OrderedObservation> data = Simulated(new SeededChance(7), 300, 0.5);

        OrderedProbitFit usual = OrderedProbit.Fit(data, 4);
        OrderedProbitFit scaled = OrderedProbit.Fit([.. data.Select(o => new OrderedObservation([o.Covariates[0] * unit], o.Category))], 4);

        Assert.Equal(usual.Coefficients[0].Value, scaled.Coefficients[0].Value * unit, 1e-8);
        Assert.Equal(usual.Thresholds[1].Value, scaled.Thresholds[1].Value, 1e-8);
        Assert.Equal(usual.LogLikelihood, scaled.LogLikelihood, 1e-8);
    }

    [Fact]
    public void Fit_CategoriesTurnedRound_TurnsTheSigns()
    {
        List<OrderedObservation> data = Simulated(new SeededChance(8), 300, 0.5);

        OrderedProbitFit usual = OrderedProbit.Fit(data, 4);
        OrderedProbitFit turned = OrderedProbit.Fit([.. data.Select(o => new OrderedObservation(o.Covariates, 3 - o.Category))], 4);

        Assert.Equal(usual.Coefficients[0].Value, -turned.Coefficients[0].Value, 1e-8);
        Assert.Equal(usual.Thresholds[0].Value, -turned.Thresholds[2].Value, 1e-8);
    }

    [Fact]
    public void Fit_ManyObservations_FindsTheTruth()
    {
        OrderedProbitFit fit = OrderedProbit.Fit(Simulated(new SeededChance(9), 20_000, 0.7), 4);

        Assert.Equal(0.7, fit.Coefficients[0].Value, 4 * fit.Coefficients[0].StandardError);
        Assert.Equal(-0.5, fit.Thresholds[0].Value, 4 * fit.Thresholds[0].StandardError);
        Assert.InRange(fit.Coefficients[0].StandardError, 0.001, 0.02);
    }

    [Fact]
    public void Fit_CategoryNeverObserved_SaysSo() =>
        Assert.Equal(OrderedProbitStatus.CategoryMissing, OrderedProbit.Fit([Of(0, 3), Of(2, 4), Of(1, 0)], 3).Status);

    [Fact]
    public void Fit_NothingObserved_SaysSo() =>
        Assert.Equal(OrderedProbitStatus.CategoryMissing, OrderedProbit.Fit([], 2).Status);

    [Fact]
    public void Fit_CategoriesWithoutOverlap_SaysSo() => Assert.Equal(
        OrderedProbitStatus.Separated,
        OrderedProbit.Fit([.. Enumerable.Range(0, 12).Select(i => new OrderedObservation([i], i / 4))], 3).Status);

    [Fact]
    public void Fit_OneThresholdWithoutOverlapByOneOfTwoCovariates_SaysSo()
    {
        // Whoever has the second covariate is in category 1: its coefficient has no bound, the first one's does.
        List<OrderedObservation> data =
            [.. Simulated(new SeededChance(10), 60, 0.5).Select(o => new OrderedObservation([o.Covariates[0], 0], Math.Min(o.Category, 1)))];
        data.AddRange([new([0.3, 1], 1), new([-0.2, 1], 1), new([1.1, 1], 1)]);

        Assert.Equal(OrderedProbitStatus.Separated, OrderedProbit.Fit(data, 2).Status);
    }

    [Fact]
    public void Fit_CovariatesThatDependOnEachOther_SaysSo() => Assert.Equal(
        OrderedProbitStatus.Separated,
        OrderedProbit.Fit(
            [.. Simulated(new SeededChance(11), 100, 0.5).Select(o => new OrderedObservation([o.Covariates[0], 2 * o.Covariates[0]], o.Category))],
            4).Status);

    [Fact]
    public void Fit_ObservationsThatDoNotMatch_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => OrderedProbit.Fit([new([1], 0), new([1, 2], 1)], 2));
        Assert.Throws<ArgumentException>(() => OrderedProbit.Fit([new([1], 0), new([1], 2)], 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => OrderedProbit.Fit([new([1], 0)], 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new OrderedObservation([double.NaN], 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new OrderedObservation([1], -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new OrderedObservation([1], 0, -1));
    }

    private static OrderedObservation Of(int category, double weight) => new([], category, weight);

    /// <summary>Categories at thresholds -0.5, 0.4 and 1.2 of slope·x + Z.</summary>
    private static List<OrderedObservation> Simulated(SeededChance chance, int count, double slope) =>
    [
        .. Enumerable.Range(0, count).Select(_ =>
        {
            double x = chance.Whole(-10, 10) / 5.0;
            double latent = (slope * x) + chance.Normal();
            return new OrderedObservation([x], latent < -0.5 ? 0 : latent < 0.4 ? 1 : latent < 1.2 ? 2 : 3);
        }),
    ];
}
