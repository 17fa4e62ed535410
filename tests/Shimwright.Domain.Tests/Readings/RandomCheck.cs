using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>Checks of one to six valves with every kind of reading, drawn from a seed.</summary>
internal static class RandomCheck
{
    public static EngineCheck Draw(int seed)
    {
        var chance = new SeededChance(seed);
        Valve[] valves = [.. Enumerable.Range(0, chance.Whole(1, 6)).Select(v => DrawValve(chance, v))];
        double? kappa = chance.Pick<double?>(null, 0.0004, -0.0008);
        HeatGain? heat = kappa is { } k ? new HeatGain(k, chance.Pick(k, 0)) : null;
        var engine = new Engine("Any", Made.Bucket, valves, heat, chance.Pick(GapSense.Opening, GapSense.Opening, GapSense.Closing));
        double temperature = chance.Pick(20.0, 20.0, 5.0, 60.0);
        double shift = (kappa ?? 0) * (temperature - 20);
        return new(
            engine,
            valves.Select(v => DrawReadings(chance, v.Band.Middle - chance.Exponential(0.05) + shift)),
            temperature,
            chance.Pick(LossPrior.Ordinary, LossPrior.Ordinary, LossPrior.Dust, new LossPrior(0.01, 0.05), LossPrior.HeadWork(true, false)),
            chance.Pick(FeelProfile.Default, FeelProfile.Default, new FeelProfile(-0.03, -0.01, 0.01, 0.004, 0.05, 0.002, 0), new FeelProfile(doubt: 0.0004)));
    }

    private static Valve DrawValve(SeededChance chance, int v)
    {
        double low = chance.Pick(0.05, 0.10, 0.20);
        return new(
            $"V{v + 1}", v + 1, chance.Pick(ValveSide.Intake, ValveSide.Exhaust), "cover",
            new ClearanceBand(low, low + chance.Pick(0.04, 0.06, 0.10)));
    }

    private static ValveReadings DrawReadings(SeededChance chance, double gap)
    {
        int trials = chance.Whole(0, 3);
        int values = chance.Pick(0, 0, 1, 2);
        return new(
            Enumerable.Range(0, trials).Select(_ => new BladeTrial(
                Math.Max(0.02, Math.Round(gap + chance.Normal(0, 0.02), 2)),
                chance.Pick(Feel.No, Feel.Firm, Feel.Light, Feel.Loose),
                chance.Pick(1, 1, 3))),
            Enumerable.Range(0, values).Select(_ => new DirectValue(gap + chance.Normal(0, 0.01), chance.Pick(0.005, 0.01, 0.03))),
            Enumerable.Range(0, chance.Pick(0, 0, 0, 1)).Select(_ => chance.Happens(0.8)));
    }
}
