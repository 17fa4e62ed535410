using Shimwright.Domain.Wear;
using Xunit;

namespace Shimwright.Domain.Tests.Wear;

public class FirstPassageTests
{
    [Fact]
    public void Chance_LimitReached_IsCertain()
    {
        Assert.Equal(1, FirstPassage.Chance(0, 0.001, 1e-6, 0));
        Assert.Equal(1, FirstPassage.Chance(-0.01, 0.001, 1e-6, 30));
    }

    [Fact]
    public void Chance_NoTime_IsNone() => Assert.Equal(0, FirstPassage.Chance(0.01, 0.001, 1e-6, 0));

    [Fact]
    public void Chance_NothingStrays_IsPlainArithmetic()
    {
        Assert.Equal(0, FirstPassage.Chance(0.03, 0.001, 0, 29.9));
        Assert.Equal(1, FirstPassage.Chance(0.03, 0.001, 0, 30.1));
    }

    [Fact]
    public void Chance_NoDrift_IsTheReflectionPrinciple()
    {
        // P(T ≤ t) = 2·Φ(-d/√(qt)): D. Freedman, Brownian Motion and Diffusion, 1.3 (from memory).
        double expected = 2 * Domain.Numerics.StandardNormal.Cdf(-0.01 / Math.Sqrt(1e-6 * 40));
        Assert.Equal(expected, FirstPassage.Chance(0.01, 0, 1e-6, 40), 1e-14);
    }

    [Fact]
    public void Chance_ThreeUnitsChangedTogether_StaysTheSame() => Assert.Equal(
        FirstPassage.Chance(0.03, 0.0007, 8e-7, 33), FirstPassage.Chance(30, 0.7, 0.8, 33), 1e-14);

    [Fact]
    public void LogChanceAndLogSurvival_AddUpToOne()
    {
        var chance = new SeededChance(51);
        for (int i = 0; i < 2000; i++)
        {
            double d = chance.Uniform(1e-4, 0.2);
            double r = chance.Uniform(-0.002, 0.004);
            double q = chance.Uniform(1e-8, 1e-5);
            double t = chance.Uniform(0.1, 200);
            double sum = Math.Exp(FirstPassage.LogChance(d, r, q, t)) + Math.Exp(FirstPassage.LogSurvival(d, r, q, t));
            Assert.Equal(1, sum, 1e-12);
        }
    }

    [Fact]
    public void LogChance_DriftAway_GoesToItsLimit()
    {
        // Ever reaching a limit against the drift has chance e^{-2|r|d/q}.
        Assert.Equal(-2 * 0.001 * 0.02 / 1e-6, FirstPassage.LogChance(0.02, -0.001, 1e-6, 1e7), 1e-6);
    }

    [Fact]
    public void LogChance_FactorThatOverflows_IsFinite()
    {
        // e^{2rd/q} = e^{4000}.
        Assert.InRange(FirstPassage.LogChance(0.2, 0.001, 1e-7, 150), -90, -80);
        Assert.Equal(0, FirstPassage.LogChance(0.2, 0.001, 1e-7, 300), 1e-12);
        Assert.InRange(FirstPassage.LogSurvival(0.2, 0.001, 1e-7, 300), -200, -100);
    }

    [Fact]
    public void Quick_AnyCase_AgreesWithTheExactOne()
    {
        var chance = new SeededChance(52);
        for (int i = 0; i < 5000; i++)
        {
            double d = chance.Uniform(0, 0.1);
            double r = chance.Uniform(0, 0.01);
            double q = chance.Uniform(1e-8, 1e-5);
            double t = chance.Uniform(0.01, 200);
            Assert.Equal(FirstPassage.Chance(d, r, q, t), FirstPassage.ChanceFromTable(d, r, t, Math.Sqrt(q * t)), 1e-8);
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

        double claim = FirstPassage.Chance(Distance, Rate, Diffusion, Time);
        Assert.Equal(claim, passed / (double)Walks, 4 * Math.Sqrt(claim * (1 - claim) / Walks));
    }
}
