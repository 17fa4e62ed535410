using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.FeelCalibration;

public class FeelLikelihoodTests
{
    private static readonly FeelLikelihood Usual = new(FeelProfile.Default.Slip, FeelProfile.Default.Blade);

    [Fact]
    public void Chance_OfAnyFeel_IsThatOfTheProfile()
    {
        var chance = new SeededChance(3);
        Span<double> slope = stackalloc double[4];
        Span<double> bend = stackalloc double[16];
        for (int k = 0; k < 500; k++)
        {
            FeelProfile feel = Person.Drawn(chance);
            Feel felt = chance.Pick(Feel.No, Feel.Firm, Feel.Light, Feel.Loose);
            double play = chance.Uniform(-0.08, 0.08);
            int leaves = chance.Whole(1, 10);

            double found = Usual.Chance(felt, play, leaves, FeelLikelihood.PointOf(feel), slope, bend);

            Assert.Equal(feel.Chance(felt, 0.2 + play, 0.2, leaves), found, 1e-9);
        }
    }

    [Fact]
    public void Of_AnyTrials_HasTheSlopesOfSmallDifferences()
    {
        var chance = new SeededChance(4);
        for (int k = 0; k < 50; k++)
        {
            IReadOnlyList<FeelTrial> trials = Person.Trials(Person.Drawn(chance), 15, chance);
            Vector<double> p = FeelLikelihood.PointOf(Person.Drawn(chance));
            Curvature at = Usual.Of(trials, p)!;
            for (int i = 0; i < 4; i++)
            {
                double h = i == FeelLikelihood.Omega ? 1e-5 : 1e-8;
                Curvature up = Moved(trials, p, i, h);
                Curvature down = Moved(trials, p, i, -h);

                double scale = 1 + Math.Abs(at.Slope[i]);
                Assert.Equal(at.Slope[i], (up.Value - down.Value) / (2 * h), 1e-5 * scale);
                for (int j = 0; j < 4; j++)
                {
                    double bend = (down.Slope[j] - up.Slope[j]) / (2 * h);
                    Assert.Equal(at.Information[i, j], bend, 1e-5 * (1 + Math.Abs(at.Information[i, i]) + Math.Abs(at.Information[j, j])));
                }
            }
        }
    }

    [Fact]
    public void Expected_Information_IsTheMeanOfTheObserved()
    {
        // E[-(ln P)''] = E[(ln P)' (ln P)'ᵀ]: the second derivatives of the four chances add up to nought.
        var chance = new SeededChance(5);
        double[] slope = new double[4];
        double[] bend = new double[16];
        for (int k = 0; k < 100; k++)
        {
            Vector<double> p = FeelLikelihood.PointOf(Person.Drawn(chance));
            double play = chance.Uniform(-0.06, 0.05);
            var sum = new double[16];
            double total = 0;
            foreach (Feel feel in Enum.GetValues<Feel>())
            {
                total += Usual.Chance(feel, play, 1, p, slope, bend);
                for (int at = 0; at < 16; at++)
                {
                    sum[at] += bend[at];
                }
            }

            Assert.Equal(1, total, 1e-12);
            Assert.All(sum, s => Assert.Equal(0, s, 1e-7));
        }
    }

    private static Curvature Moved(IReadOnlyList<FeelTrial> trials, Vector<double> p, int i, double by)
    {
        Vector<double> moved = p.Clone();
        moved[i] += by;
        return Usual.Of(trials, moved)!;
    }
}
