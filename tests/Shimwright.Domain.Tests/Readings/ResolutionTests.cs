using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>What an engine can bear: counts, so that they are the same on every machine.</summary>
public class ResolutionTests
{
    private static readonly ClearanceBand Narrow = new(0.150, 0.155);

    /// <summary>64 narrow bands, losses up to a millimetre and a fine value at each took over a gigabyte.</summary>
    [Fact]
    public void Estimate_ManyNarrowBandsAndGreatLosses_KeepsNoMoreThanCanBeBorne()
    {
        EngineEstimate estimate = EngineEstimate.From(Check(64, 0.001, new LossPrior(1, 1)));
        Assert.True(estimate.Floor > 0.001);
        Assert.InRange(estimate.Valves.Sum(v => (double)v.Grid.Count), 1, 2e6);
        Assert.All(estimate.Valves, v => Assert.Equal(0.16, v.Mean, 0.02));
    }

    /// <summary>Unknown heat and doubtful fingers at many sharp readings had millions of offsets.</summary>
    [Fact]
    public void Estimate_WideDoubtsAndSharpReadings_HasFewOffsets()
    {
        var feel = new FeelProfile(spread: 0.001, doubt: 0.05);
        EngineCheck check = new(Engine(64), Readings(64, 0.001, trials: true), temperature: 140, feel: feel);
        EngineEstimate estimate = EngineEstimate.From(check);
        Assert.InRange(CheckOffsets.For(check, new Resolution(0.01, estimate.Floor), 1e8).All.Count, 1, 10_000);
        Assert.InRange(estimate.Made, 1, 2e8);
    }

    /// <summary>Where it can be borne everything is told apart as it is.</summary>
    [Fact]
    public void Estimate_OrdinaryEngine_HasNoFloor() =>
        Assert.Equal(0, EngineEstimate.From(new(Engine(16, new(0.10, 0.16)), Readings(16, 0.01, trials: true))).Floor);

    /// <summary>What a floor leaves out makes an estimate less sure, never surer, and hardly moves it.</summary>
    [Fact]
    public void Likelihood_WithAFloor_SaysLessAndTheSame()
    {
        ValveReadings many = new(values: Enumerable.Repeat(new DirectValue(0.15, 0.001), 40));
        var sharp = new Likelihood(many, FeelProfile.Default, new Resolution(0.0001));
        var blunt = new Likelihood(many, FeelProfile.Default, new Resolution(0.001, 0.002));
        Assert.Equal(-0.5, blunt.Log(0.152) - blunt.Log(0.15), 1e-9);
        Assert.True(sharp.Log(0.152) - sharp.Log(0.15) < -50);
    }

    /// <summary>A search that may not go on gives the best plan that it met, and says what it may have missed.</summary>
    [Fact]
    public void Search_WithoutSteps_GivesAPlanAndSaysThatItIsNotProven()
    {
        EngineCheck check = new(Engine(8, new(0.10, 0.20)), Readings(8, 0.01, trials: false));
        PlanRequest request = new(check, [.. Enumerable.Range(0, 8).Select(k => new Thickness(2.5 + (0.01 * k), Instrument.Micrometer))]);
        var search = new PlanSearch(request, new OptionTable(request, EngineEstimate.From(check)), new Shimwright.Domain.Numerics.Allowance(0));
        PlanPoint plan = search.Best(PlanWeights.Even, 0);
        Assert.Equal(8, plan.Choice.Length);
        Assert.True(search.Unproven > 0);
    }

    private static EngineCheck Check(int valves, double u, LossPrior loss) => new(Engine(valves), Readings(valves, u, trials: false), loss: loss);

    private static IEnumerable<ValveReadings> Readings(int valves, double u, bool trials) => Enumerable.Repeat(
        new ValveReadings(trials ? [new BladeTrial(0.15, Feel.Light), new BladeTrial(0.18, Feel.No)] : [], [new DirectValue(0.16, u)]), valves);

    private static Engine Engine(int valves, ClearanceBand? band = null) => Made.Engine(
        [.. Enumerable.Range(0, valves).Select(v => Made.Valve($"V{v}", band: band ?? Narrow))]);
}
