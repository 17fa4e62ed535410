using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;
using Shimwright.Domain.Wear.Signs;
using Xunit;

namespace Shimwright.Domain.Tests.Wear.Signs;

/// <summary>Each rule on a small engine that shows what it is about, and on one that does not.</summary>
public class WearSignsTests
{
    private const double Usual = 0.02;

    private static readonly Engine Four = Made.Engine(
        Made.Valve("I1"), Made.Valve("I2"),
        Made.Valve("E1", ValveSide.Exhaust, band: new ClearanceBand(0.20, 0.26)),
        Made.Valve("E2", ValveSide.Exhaust, band: new ClearanceBand(0.20, 0.26)));

    [Fact]
    public void Of_UsualWear_IsSilent()
    {
        Assert.Empty(Of([0, 0, 0, 0], [Usual, Usual, Usual, Usual], [Usual, Usual, Usual, Usual]));
        Assert.Empty(Of([0, 0, 0, 0]));
    }

    [Fact]
    public void Of_IntakesFast_SaysDust()
    {
        WearSign sign = Only(SignKind.IntakesFast, [0, 0, 0, 0], [0.10, 0.09, Usual, 0.01]);
        Assert.Equal([0, 1], sign.Valves);
        Assert.InRange(sign.Evidence, 0, WearSigns.UsualLimit);
        Assert.DoesNotContain(Of([0, 0, 0, 0], [0.10, 0.09, 0.10, 0.09]), s => s.Kind == SignKind.IntakesFast);
    }

    [Fact]
    public void Of_OneValveFast_NamesItAgainstItsPartner()
    {
        WearSign sign = Only(SignKind.FarFromPartner, [0, 0, 0, 0], [Usual, Usual, Usual, Usual], [Usual, Usual, 0.14, Usual]);
        Assert.Equal([2], sign.Valves);
    }

    [Fact]
    public void Of_AllFast_SaysSo() => Only(SignKind.AllFast, [0, 0, 0, 0], [0.08, 0.07, 0.08, 0.07]);

    [Fact]
    public void Of_ValveThatGains_IsNamed()
    {
        WearSign sign = Only(SignKind.Gaining, [0, 0, 0, 0], [Usual, -0.09, Usual, Usual]);
        Assert.Equal([1], sign.Valves);
    }

    [Fact]
    public void Of_JumpAfterQuietYears_IsAStep()
    {
        WearSign sign = Only(SignKind.Step, [0, 0, 0, 0], [0.01, 0.01, 0.01, 0.01], [0.01, 0.01, 0.01, 0.01], [0.01, 0.01, 0.01, 0.07]);
        Assert.Equal([3], sign.Valves);
    }

    [Fact]
    public void Of_WarmCheckWithUnknownKappa_BlamesTheTemperature()
    {
        double[][] losses = [[0, 0, 0, 0], [-0.04, -0.04, -0.04, -0.04]];
        Assert.Contains(Signs(Four, losses, [20, 60]), s => s.Kind == SignKind.Temperature);
        Assert.DoesNotContain(Signs(Four, losses, [20, 25]), s => s.Kind == SignKind.Temperature);
        var known = new Engine("Loaner", Made.Bucket, Four.Valves, 0);
        Assert.DoesNotContain(Signs(known, losses, [20, 60]), s => s.Kind == SignKind.Temperature);
    }

    [Fact]
    public void Of_ColdCheckAfterAWarmOne_BlamesTheTemperatureToo() =>
        Assert.Contains(Signs(Four, [[0, 0, 0, 0], [0.08, 0.08, 0.08, 0.08]], [60, 20]), s => s.Kind == SignKind.Temperature);

    /// <summary>The last loss of one valve is turned up until it is said to have jumped: that is where the tail, for four valves, reaches 0.0025.</summary>
    [Fact]
    public void Of_LossTurnedUp_IsSaidFromTheLimitOn()
    {
        WearSign? Said(double loss) =>
            Of([0, 0, 0, 0], [0.01, 0.01, 0.01, 0.01], [0.01, 0.01, 0.01, 0.01], [0.01, 0.01, 0.01, loss]).FirstOrDefault(s => s.Kind == SignKind.Step);
        (double silent, double said) = (0.01, 0.12);
        for (int k = 0; k < 20; k++)
        {
            double middle = (silent + said) / 2;
            (silent, said) = Said(middle) is null ? (middle, said) : (silent, middle);
        }

        Assert.InRange(Said(said)!.Evidence, 0.00249, 0.0025);
    }

    [Fact]
    public void Of_ChangeThatMissed_IsAboutTheChangeAndNotAStep()
    {
        Adjustment change = Adjustment.Fitted(0, Made.Measured(2.5), Made.Measured(2.45));
        WearCheck[] checks = [Check(Four, 0, [0.05, 0, 0, 0], 20, change), Check(Four, 0, [0.05, 0, 0, 0], 20)];
        IReadOnlyList<WearSign> signs = WearSigns.Of(WearFilter.Follow(checks, Kept.Wear));
        Assert.Equal([0], Assert.Single(signs, s => s.Kind == SignKind.MissedPrediction).Valves);
        Assert.DoesNotContain(signs, s => s.Kind == SignKind.Step);
    }

    [Fact]
    public void Of_ShimNearTheThinnest_SaysThatTheHeadIsDue()
    {
        EngineWear wear = WearFilter.Follow([Check(Four, 0, [0.03, 0, 0, 0], 20)], Kept.Wear);
        WearSign sign = Assert.Single(WearSigns.Of(wear, thinnest: 2.5), s => s.Kind == SignKind.RoomNearlyUsed);
        Assert.Equal(0, sign.Valves[0]);
        Assert.InRange(sign.Evidence, 0.05, 1);
        Assert.Empty(WearSigns.Of(wear, thinnest: 2.0));
        Assert.Empty(WearSigns.Of(wear));
    }

    /// <summary>Under a finger that passes on half of a shim's change, twice the shim is left where the same room is.</summary>
    [Fact]
    public void Of_FingerOfRatioHalf_HasHalfTheRoomOfItsShim()
    {
        static double Evidence(double ratio, double thinnest)
        {
            Engine engine = Made.Engine(new Valvetrain(Adjuster.FingerFollower, ratio), Four.Valves);
            EngineWear wear = WearFilter.Follow([Check(engine, 0, [0.03, 0, 0, 0], 20)], Kept.Wear);
            return WearSigns.Of(wear, thinnest).Single(s => s.Kind == SignKind.RoomNearlyUsed).Evidence;
        }

        Assert.Equal(Evidence(1, 2.48), Evidence(0.5, 2.46), 1e-9);
        Assert.True(Evidence(1, 2.48) > Evidence(1, 2.46) + 0.02);
    }

    private static WearSign Only(SignKind kind, params double[][] losses) => Assert.Single(Of(losses), s => s.Kind == kind);

    private static IReadOnlyList<WearSign> Of(params double[][] losses) => Signs(Four, losses, [.. losses.Select(_ => 20.0)]);

    /// <summary>Checks an interval apart, at each of which the valves have lost so much more.</summary>
    private static IReadOnlyList<WearSign> Signs(Engine engine, double[][] losses, double[] temperatures)
    {
        double[] lost = new double[engine.Valves.Count];
        List<WearCheck> checks = [];
        for (int k = 0; k < losses.Length; k++)
        {
            lost = [.. lost.Zip(losses[k], (a, b) => a + b)];
            checks.Add(Check(engine, k * Kept.Interval, lost, temperatures[k]));
        }

        return WearSigns.Of(WearFilter.Follow(checks, Kept.Wear));
    }

    private static WearCheck Check(Engine engine, double clock, double[] lost, double temperature, params Adjustment[] changes) => new(
        clock,
        new EngineCheck(engine, engine.Valves.Select((v, i) => Made.Value(v.Band.Middle + 0.01 - lost[i], 0.006)), temperature),
        engine.Valves.Select(_ => (Thickness?)Made.Measured(2.5)),
        changes);
}
