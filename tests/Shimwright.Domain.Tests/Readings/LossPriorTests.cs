using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

public class LossPriorTests
{
    private const int Parts = 20_000;

    [Fact]
    public void Means_AtTheirLimits_AreTaken()
    {
        Assert.Equal((0.001, 1.0), (new LossPrior(0.001, 1).Shared, new LossPrior(0.001, 1).Own));
        Assert.Equal((0.04, 0.02), (LossPrior.Ordinary.Shared, LossPrior.Ordinary.Own));
        Assert.Equal((0.08, 0.02), (LossPrior.Dust.Shared, LossPrior.Dust.Own));
    }

    [Fact]
    public void Means_BeyondTheirLimits_AreRefused()
    {
        Refuses.OutOfRange("shared", 0.00099, "0.001 to 1", () => new LossPrior(shared: 0.00099));
        Refuses.OutOfRange("own", 1.0001, "0.001 to 1", () => new LossPrior(own: 1.0001));
        Refuses.NotANumber("shared", x => new LossPrior(shared: x));
        Refuses.NotANumber("own", x => new LossPrior(own: x));
    }

    [Theory]
    [InlineData(0.015, 0.02)]
    [InlineData(0.00125, 0.02)]
    [InlineData(0.015, 0.001)]
    [InlineData(0.00125, 1)]
    public void OwnDensity_PlaceOfAValve_HasTheMomentsOfTheSum(double scale, double own)
    {
        var loss = new LossPrior(own: own);
        double step = scale / 12;
        double[] moments = new double[3];
        for (double y = -(30 * own) - (9 * scale); y < 9 * scale; y += step)
        {
            double mass = step * loss.OwnDensity(y, scale);
            moments[0] += mass;
            moments[1] += mass * y;
            moments[2] += mass * y * y;
        }

        // Normal about 0 with this scale, less an exponential with this mean.
        Assert.Equal(1, moments[0], 1e-9);
        Assert.Equal(-1, moments[1] / own, 1e-8);
        Assert.Equal((scale * scale) + (own * own), moments[2] - (moments[1] * moments[1]), 1e-7 * own);
    }

    [Theory]
    [InlineData(0.015, 0.02)]
    [InlineData(0.025, 0.05)]
    public void OwnDensity_AnyPlace_IsTheNormalDensityAveragedOverTheOwnLoss(double scale, double own)
    {
        var loss = new LossPrior(own: own);
        for (double y = -0.3; y < 0.1; y += 0.01)
        {
            double sum = 0;
            for (int k = 0; k < Parts; k++)
            {
                // The own loss by its quantiles, each in the middle of an equal part.
                double z = (y - (own * Math.Log(1 - ((k + 0.5) / Parts)))) / scale;
                sum += Math.Exp(-z * z / 2) / (scale * Math.Sqrt(2 * Math.PI)) / Parts;
            }

            Assert.Equal(sum, loss.OwnDensity(y, scale), 2e-3);
        }
    }

    [Fact]
    public void HeadWork_Sides_AreKept()
    {
        Assert.Equal((true, false), (LossPrior.HeadWork(true, false).IsReworked(ValveSide.Intake), LossPrior.HeadWork(true, false).IsReworked(ValveSide.Exhaust)));
        Assert.Equal((false, true), (LossPrior.HeadWork(false, true).IsReworked(ValveSide.Intake), LossPrior.HeadWork(false, true).IsReworked(ValveSide.Exhaust)));
        Assert.False(LossPrior.Ordinary.IsReworked(ValveSide.Intake));
    }

    [Fact]
    public void OwnDensity_FarFromTheMiddle_NeitherOverflowsNorIsLost()
    {
        // A wide band and next to no loss: exp of a third of a million on the way.
        var loss = new LossPrior(own: 0.001);
        Assert.Equal(1 / (0.75 * Math.Sqrt(2 * Math.PI)), loss.OwnDensity(0, 0.75), 1e-5);
        Assert.True(loss.OwnDensity(-5, 0.75) > 0);
        Assert.Equal(0, loss.OwnDensity(40, 0.75));
    }
}
