using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class ScrewPlanTests
{
    /// <summary>Seating 0.004 and a setting felt with a blade, 0.010: the setting does not depend on what the gap was.</summary>
    private static readonly double SettingError = Math.Sqrt((0.004 * 0.004) + (0.010 * 0.010));

    [Theory]
    [InlineData(0.06, 1.0, 0.75)]
    [InlineData(0.06, 1.5, 0.75)]
    [InlineData(0.25, 1.5, 1.0)]
    public void Turns_ClearanceOffTheMiddle_BringItThere(double clearance, double ratio, double pitch)
    {
        PlanRequest request = Request(new Valvetrain(Adjuster.Screw, ratio, pitch), Made.Band, Made.Value(clearance, 0.005));
        PlannedValve line = Planner.Plan(request).Chosen.Valves[0];

        Assert.Equal(ValveAction.Turn, line.Action);
        Assert.Equal((0.15 - line.Estimate.Mean) / (ratio * pitch), line.Turns!.Value, 1e-12);
        Assert.Equal(clearance < 0.15, line.Turns > 0);
        Assert.Null(line.From);
        Assert.Null(line.To);
        Assert.Null(line.Source);
    }

    [Fact]
    public void Chance_ScrewTurned_IsThatOfASettingFeltAboutTheMiddle()
    {
        PlanRequest request = Request(new Valvetrain(Adjuster.Screw, 1.2, 0.75), Made.Band, Made.Value(0.05, 0.005));
        PlannedValve line = Planner.Plan(request).Chosen.Valves[0];

        Assert.Equal(1 - (2 * StandardNormal.Cdf(-0.03 / SettingError)), line.Chance!.Value, 1e-12);
        Assert.Equal(0.15, line.After!.Mean, 1e-12);
        Assert.Equal(SettingError, line.After.StandardDeviation, 1e-12);

        // The 97.5 % point of the normal law, from memory.
        Assert.Equal(0.15 - (1.959964 * SettingError), line.After.Low, 1e-7);
        Assert.Equal(0.15 + (1.959964 * SettingError), line.After.High, 1e-7);
        Assert.Equal(line.Chance, line.After.InBand);
    }

    [Fact]
    public void ChanceAll_EveryScrewTurned_IsTheProduct()
    {
        PlanRequest request = Request(
            new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Band, Made.Value(0.05, 0.005), Made.Value(0.06, 0.005), Made.Value(0.25, 0.005));
        ShimPlan plan = Planner.Plan(request).Chosen;

        Assert.All(plan.Valves, v => Assert.Equal(ValveAction.Turn, v.Action));
        Assert.Equal(Math.Pow(plan.Valves[0].Chance!.Value, 3), plan.ChanceAll, 1e-12);
        Assert.Equal(9, plan.WorkMinutes);
        Assert.Equal((60 * (1 - plan.ChanceAll)) + (3 * 3 * (1 - plan.Valves[0].Chance!.Value)), plan.ToComeMinutes, 1e-9);
    }

    [Fact]
    public void Plan_ScrewInTheMiddleAlready_IsLeftAlone()
    {
        PlanRequest request = Request(new Valvetrain(Adjuster.Screw, 1, 0.75), Made.Band, Made.Value(0.15, 0.005));
        PlannedValve line = Planner.Plan(request).Chosen.Valves[0];

        Assert.Equal(ValveAction.Keep, line.Action);
        Assert.Null(line.Turns);
        Assert.Equal(line.Estimate, line.After);
    }

    [Fact]
    public void Plan_BandTooNarrowForAScrew_StrandsTheValveAndSaysSo()
    {
        EngineCheck check = Check(new Valvetrain(Adjuster.Screw, 1, 0.75), new ClearanceBand(0.15, 0.16), Made.Value(0.05, 0.005));
        ShimPlan plan = Planner.Plan(new PlanRequest(check, [], rules: new PlanRules(fitFloor: 0.5))).Chosen;

        StrandedValve stranded = Assert.Single(plan.Stranded);
        BandTooNarrow reason = Assert.IsType<BandTooNarrow>(stranded.Reason);
        Assert.Equal(0.01, reason.Width, 1e-12);
        Assert.Equal(0.5, reason.FitFloor);
        Assert.Equal(ValveAction.Keep, plan.Valves[0].Action);
    }

    private static PlanRequest Request(Valvetrain train, ClearanceBand band, params ValveReadings[] readings) =>
        new(Check(train, band, readings), []);

    private static EngineCheck Check(Valvetrain train, ClearanceBand band, params ValveReadings[] readings) =>
        new(Made.Engine(train, readings.Select((_, v) => Made.Valve($"I{v + 1}", band: band))), readings);
}
