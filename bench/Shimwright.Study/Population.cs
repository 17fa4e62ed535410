using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>Engines of one kind: how much clearance they have lost.</summary>
/// <param name="Number">Names its streams of chance.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Lost">What its engines have lost.</param>
/// <param name="Told">What the plan is told to expect.</param>
/// <param name="OwnFingers">Whether every job is done by somebody else, whose fingers are not the usual ones.</param>
/// <param name="FingersOff">Standard deviation by which the fingers of whoever does the job are off the usual ones, all thresholds together, mm.</param>
internal sealed record Population(int Number, string Name, Loss Lost, LossPrior Told, bool OwnFingers = false, double FingersOff = 0)
{
    /// <summary>The engine of the study: two intake and two exhaust valves.</summary>
    public static Engine Engine { get; } = new(
        "Study",
        new Valvetrain(Adjuster.ShimUnderBucket),
        [
            new("I1", 1, ValveSide.Intake, "intake cam", new ClearanceBand(0.12, 0.19)),
            new("I2", 1, ValveSide.Intake, "intake cam", new ClearanceBand(0.12, 0.19)),
            new("E1", 1, ValveSide.Exhaust, "exhaust cam", new ClearanceBand(0.20, 0.27)),
            new("E2", 1, ValveSide.Exhaust, "exhaust cam", new ClearanceBand(0.20, 0.27)),
        ]);

    public static Population Worn { get; } = new(1, "worn", new Loss(LossLaw.Shares, 0.04, 0.04, 0.02), LossPrior.Ordinary);

    public static Population Dusty { get; } = new(2, "dusty", new Loss(LossLaw.Shares, 0.08, 0.04, 0.02), LossPrior.Dust);

    /// <summary>The engines of <see cref="Worn"/>, each felt by fingers of its own.</summary>
    public static Population OtherFingers { get; } = Worn with { Name = "worn, felt by fingers of their own", OwnFingers = true };

    /// <summary>The fingers of whoever does the job.</summary>
    public FeelProfile Fingers(int seed, int engine)
    {
        var draws = new Draws(seed, Number, engine, (int)Stream.Person);
        if (OwnFingers)
        {
            return Calibration.Somebody(draws);
        }

        FeelProfile usual = FeelProfile.Default;
        double off = draws.Normal(FingersOff);
        return FingersOff == 0 ? usual : new(usual.Firm + off, usual.Light + off, usual.Loose + off);
    }

    /// <summary>The true clearances of one engine: most left the maker near the middle of their bands, a few are astray.</summary>
    public double[] Clearances(int seed, int engine)
    {
        var draws = new Draws(seed, Number, engine, (int)Stream.Clearances);
        double[] lost = Lost.Draw([.. Engine.Valves.Select(v => v.Side == ValveSide.Intake)], draws);
        return [.. Engine.Valves.Select((v, i) => draws.Happens(LossPrior.StrayWeight)
            ? draws.Uniform(v.Band.Middle - LossPrior.StrayReach, v.Band.Middle + LossPrior.StrayReach)
            : v.Band.Middle + draws.Normal(v.Band.Width / 4) - lost[i])];
    }
}

/// <summary>What chance is asked for; keeps the streams of one engine apart.</summary>
internal enum Stream
{
    Clearances,
    FittedShims,
    Kit,
    Micrometer,
    Seating,
    Feeling,
    Person,
    Calibration,
    Depth,
    Touching,
}
