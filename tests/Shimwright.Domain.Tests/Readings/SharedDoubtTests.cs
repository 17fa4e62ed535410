using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>What the readings of a check share, and what each valve has of its own.</summary>
public class SharedDoubtTests
{
    private static readonly FeelProfile Sure = new(doubt: 0);

    [Fact]
    public void From_InBandAmongTightFellows_IsNotOverruledWithoutAWord()
    {
        ValveReadings tight = Made.Felt((0.05, Feel.No));
        ValveReadings fine = Made.Felt((0.13, Feel.Loose), (0.15, Feel.Light), (0.18, Feel.No));
        EngineEstimate estimate = EngineEstimate.From(Made.Check(tight, tight, tight, fine));
        Assert.True(estimate.Valves[3].InBand > 0.8, $"{estimate.Valves[3].InBand}");
        Assert.Null(Contradicted(estimate, 3));
    }

    [Fact]
    public void Contradicts_AReadingThatThePastOutvotes_IsTold()
    {
        // Expected at 0.150 within 0.005, read at 0.122 within 0.01: the estimate lies between, and half of neither interval is shared.
        EngineEstimate estimate = EngineEstimate.From(Made.Check(Made.Value(0.122, 0.010), Made.Value(0.148, 0.010), ValveReadings.None)
            .After(new HistoryPrior(Enumerable.Repeat(new ExpectedClearance(0.15, 0.005), 3), strayWeight: 0)));
        Assert.InRange(Contradicted(estimate, 0)!.Estimate.Mean, 0.121, 0.123);
        Assert.InRange(estimate.Valves[0].Mean, 0.135, 0.149);
        Assert.Null(Contradicted(estimate, 1));
        Assert.Null(estimate.Alone[2]);
    }

    [Fact]
    public void Doubt_OneOffsetForAllBlades_DoesNotAverageOut()
    {
        ValveReadings felt = Made.Felt((0.13, Feel.Loose), (0.15, Feel.Light), (0.18, Feel.Firm));
        double MeanOf(FeelProfile fingers, int valves) => EngineEstimate.From(new EngineCheck(
            Made.Engine([.. Enumerable.Range(0, valves).Select(v => Made.Valve($"V{v}"))]), Enumerable.Repeat(felt, valves), feel: fingers)).Valves[0].StandardDeviation;
        Assert.True(MeanOf(new FeelProfile(doubt: 0.01), 16) > MeanOf(Sure, 16) + 0.001);
    }

    [Theory]
    [InlineData(0.0003)]
    [InlineData(0.005)]
    [InlineData(0.03)]
    public void Doubt_AnySize_WidensAReadingAloneAsItsSquareSays(double doubt)
    {
        // A stack of trials that pin the gap closely: the reading alone has the variance of both.
        ValveReadings felt = Made.Felt((0.13, Feel.Loose), (0.14, Feel.Light), (0.15, Feel.Light), (0.16, Feel.Light), (0.165, Feel.Firm), (0.17, Feel.Firm));
        ClearanceEstimate sure = ReadingAlone.At(new EngineCheck(Made.Engine(Made.Valve()), [felt], feel: new FeelProfile(slip: 0, doubt: 0)), 0)!.Estimate;
        ClearanceEstimate unsure = ReadingAlone.At(new EngineCheck(Made.Engine(Made.Valve()), [felt], feel: new FeelProfile(slip: 0, doubt: doubt)), 0)!.Estimate;
        Assert.Equal(Math.Sqrt((sure.StandardDeviation * sure.StandardDeviation) + (doubt * doubt)), unsure.StandardDeviation, 2e-5);
    }

    [Fact]
    public void Heat_UnknownKappa_DoubtsEveryReadingTheFurtherFromTwentyDegrees()
    {
        double At(double temperature, double? kappa) => ReadingAlone.At(
            new EngineCheck(new Engine("Any", Made.Bucket, [Made.Valve()], kappa), [Made.Value(0.15, 0.003)], temperature), 0)!.Estimate.StandardDeviation;
        Assert.Equal(0.003, At(20, null), 1e-6);
        Assert.Equal(0.003, At(60, 0), 1e-6);
        Assert.Equal(Math.Sqrt((0.003 * 0.003) + (0.02 * 0.02)), At(60, null), 2e-5);
        Assert.Equal(At(60, null), At(-20, null), 1e-9);
    }

    [Theory]
    [InlineData(45, 0.001)]
    [InlineData(45, 0.002)]
    [InlineData(60, 0.003)]
    [InlineData(90, 0.005)]
    [InlineData(-40, 0.010)]
    public void Heat_PreciseValueAtAnUnknownHeat_IsABellAndNoComb(double temperature, double u)
    {
        // A value alone with a normal offset is normal: its variances add up.
        const double Value = 0.105;
        ClearanceEstimate alone = ReadingAlone.At(
            new EngineCheck(Made.Engine(Made.Valve()), [Made.Value(Value, u)], temperature), 0)!.Estimate;
        double sd = Math.Sqrt((u * u) + Math.Pow(0.0005 * (temperature - 20), 2));
        Assert.Equal(SlowLaw.Phi((0.18 - Value) / sd) - SlowLaw.Phi((0.12 - Value) / sd), alone.InBand, 1e-3);
        Assert.Equal(Value - (1.959964 * sd), alone.Low, 2e-4);
    }

    [Fact]
    public void Kappa_BySide_ShiftsEachSideByItsOwn()
    {
        var engine = new Engine("Any", Made.Bucket, [Made.Valve(), Made.Valve("E1", ValveSide.Exhaust)], new HeatGain(0.001, -0.001));
        EngineCheck check = new(engine, [Made.Value(0.19), Made.Value(0.11)], 60);
        Assert.Equal(0.15, ReadingAlone.At(check, 0)!.Estimate.Mean, 1e-5);
        Assert.Equal(0.15, ReadingAlone.At(check, 1)!.Estimate.Mean, 1e-5);
    }

    [Fact]
    public void HeadWork_OneSide_KnowsNothingOfItAndSharesNothing()
    {
        Engine engine = Made.Engine(Made.Valve(), Made.Valve("I2"), Made.Valve("E1", ValveSide.Exhaust));
        EngineEstimate estimate = EngineEstimate.From(new EngineCheck(
            engine, [ValveReadings.None, Made.Value(0.60, 0.01), Made.Value(0.12)], loss: LossPrior.HeadWork(intake: true, exhaust: false)));

        // Normal with 0.25, cut at 0.8: a tenth of a percent is cut off.
        Assert.Equal(0.15, estimate.Valves[0].Mean, 1e-6);
        Assert.InRange(estimate.Valves[0].StandardDeviation, 0.247, 0.2495);
        Assert.InRange(estimate.Valves[1].Mean, 0.595, 0.60);
        Assert.Equal(0.5, estimate.SharedCauseProbability!.Value, 1e-12);
        Assert.Null(EngineEstimate.From(new EngineCheck(
            engine, Enumerable.Repeat(Made.Value(0.15), 3), loss: LossPrior.HeadWork(true, true))).SharedCauseProbability);
    }

    [Fact]
    public void Sense_Closing_IsTheMirrorOfOpening()
    {
        EngineEstimate Of(GapSense sense, double value) => EngineEstimate.From(new EngineCheck(
            new Engine("Any", Made.Bucket, [Made.Valve(), Made.Valve("I2")], null, sense), [Made.Value(value), ValveReadings.None]));
        EngineEstimate opening = Of(GapSense.Opening, 0.15 - 0.04);
        EngineEstimate closing = Of(GapSense.Closing, 0.15 + 0.04);
        Assert.Equal(opening.Valves[1].Mean - 0.15, 0.15 - closing.Valves[1].Mean, 1e-6);
        Assert.Equal(opening.Valves[0].InBand, closing.Valves[0].InBand, 1e-5);
    }

    [Fact]
    public void Repeats_OfOneBlade_TellLessThanOtherBladesOfTheSameThickness()
    {
        // Twelve repeats: the blade's error remains. As stacks of other leaf counts they would be other blades.
        var fingers = new FeelProfile(doubt: 0, slip: 0, blade: 0.01);
        double Spread(IEnumerable<BladeTrial> trials) => ReadingAlone.At(
            new EngineCheck(Made.Engine(Made.Valve()), [new ValveReadings(trials)], feel: fingers), 0)!.Estimate.StandardDeviation;
        BladeTrial[] pair = [new(0.15, Feel.Light), new(0.15, Feel.Firm)];
        double once = Spread(pair);
        double often = Spread(Enumerable.Repeat(pair, 12).SelectMany(p => p));
        Assert.True(often > 0.009, $"{often}");
        Assert.True(once > often);
    }

    [Theory]
    [InlineData(0.0001)]
    [InlineData(0.003)]
    [InlineData(0.02)]
    [InlineData(0.12)]
    public void ExponentialConvolution_OfABell_HasTheClosedForm(double mean)
    {
        const double Scale = 0.015;
        var grid = new UniformGrid(-1.6, 0.002, 900);
        double[] bell = Array.ConvertAll(grid.Points(), y => StandardNormal.Density(y / Scale) / Scale);
        double[] shifted = new double[bell.Length];
        new ExponentialConvolution(mean, grid.Step).Apply(bell, shifted);
        double peak = shifted.Max();
        Assert.All(shifted.Index(), p => Assert.Equal(new LossPrior(own: Math.Max(0.001, mean)).OwnDensity(grid.At(p.Index), Scale), p.Item, mean < 0.001 ? 0.1 * peak : 1e-4 * peak));
        Assert.Equal(-mean, shifted.Index().Sum(p => p.Item * grid.At(p.Index)) * grid.Step, 5e-6);
    }

    private static ReadingAlone? Contradicted(EngineEstimate estimate, int valve) =>
        estimate.Alone[valve] is { } alone && alone.Contradicts(estimate.Valves[valve].Summarise()) ? alone : null;
}
