using Shimwright.Domain.Wear;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

[Proof(Formulas.Passage, Evidence.Computed, "Reflection without drift, limits, scaling.")]
public class FirstPassageTests
{
    [Fact]
    public void Chance_NoDrift_IsTheReflectionPrinciple()
    {
        // P(T ≤ t) = 2·Φ(-d/√(qt)): D. Freedman, Brownian Motion and Diffusion, 1.3 (from memory).
        double expected = 2 * Domain.Numerics.StandardNormal.Cdf(-0.01 / Math.Sqrt(1e-6 * 40));
        Assert.Equal(expected, Chance(0.01, 0, 1e-6, 40), 1e-8);
    }

    [Fact]
    public void Chance_AtTheLimit_IsCertain() => Assert.Equal(1, Chance(0, 0.001, 1e-6, 30), 1e-8);

    [Fact]
    public void Chance_ThreeUnitsChangedTogether_StaysTheSame() => Assert.Equal(
        Chance(0.03, 0.0007, 8e-7, 33), Chance(30, 0.7, 0.8, 33), 1e-12);

    [Fact]
    public void Chance_FactorThatOverflows_IsFinite()
    {
        // e^{2rd/q} = e^{4000}.
        Assert.InRange(Chance(0.2, 0.001, 1e-7, 150), 0, 1e-30);
        Assert.Equal(1, Chance(0.2, 0.001, 1e-7, 300), 1e-12);
        Assert.Equal(0.5, Chance(0.2, 0.001, 1e-7, 200), 0.02);
    }

    [Fact]
    public void Chance_AnyCase_AgreesWithTheExactOne()
    {
        var chance = new SeededChance(52);
        for (int i = 0; i < 5000; i++)
        {
            double d = chance.Uniform(0, 0.1);
            double r = chance.Uniform(0, 0.01);
            double q = chance.Uniform(1e-8, 1e-5);
            double t = chance.Uniform(0.01, 200);
            Assert.Equal(SlowPassage.Chance(d, r, q, t), Chance(d, r, q, t), 1e-8);
        }
    }

    [Fact]
    public void Chance_Walk_IsMetAsOften()
    {
        // Steps of a walk overshoot the limit by 0.5826·√(q·Δ) on average (D. Siegmund, Sequential Analysis, 1985,
        // chapter 10): the limit is moved away by that.
        var chance = new SeededChance(53);
        const double Rate = 0.001, Diffusion = 4e-6, Time = 20, Step = 0.05, Distance = 0.02;
        double overshoot = 0.5826 * Math.Sqrt(Diffusion * Step);
        int passed = 0;
        const int Walks = 4000;
        for (int i = 0; i < Walks; i++)
        {
            double left = Distance - overshoot;
            for (double t = 0; t < Time - 1e-9 && left > 0; t += Step)
            {
                left -= (Rate * Step) + chance.Normal(0, Math.Sqrt(Diffusion * Step));
            }

            passed += left <= 0 ? 1 : 0;
        }

        double claim = Chance(Distance, Rate, Diffusion, Time);
        Assert.Equal(claim, passed / (double)Walks, 4 * Math.Sqrt(claim * (1 - claim) / Walks));
    }

    private static double Chance(double distance, double rate, double diffusion, double time) =>
        FirstPassage.ChanceFromTable(distance, rate, time, Math.Sqrt(diffusion * time));
}
