using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>Engines of one kind: how much clearance they have lost.</summary>
/// <param name="Number">Names its streams of chance.</param>
/// <param name="Name">What it is called.</param>
/// <param name="OneCause">What is lost where one cause moved both sides.</param>
/// <param name="Intake">What the intake side loses where each side has its own cause.</param>
/// <param name="Exhaust">What the exhaust side loses where each side has its own cause.</param>
/// <param name="Told">What the plan is told to expect.</param>
/// <param name="OwnFingers">Whether every job is done by somebody else, whose fingers are not the usual ones.</param>
internal sealed record Population(
    int Number, string Name, LossPrior OneCause, LossPrior Intake, LossPrior Exhaust, LossPrior Told,
    bool OwnFingers = false)
{
    /// <summary>The engine of the study: two intake and two exhaust valves.</summary>
    public static Engine Engine { get; } = new(
        "Study",
        new Valvetrain(Adjuster.ShimUnderBucket),
        [
            new("I1", 1, ValveSide.Intake, "intake cam", new ClearanceBand(0.10, 0.17)),
            new("I2", 1, ValveSide.Intake, "intake cam", new ClearanceBand(0.10, 0.17)),
            new("E1", 1, ValveSide.Exhaust, "exhaust cam", new ClearanceBand(0.17, 0.24)),
            new("E2", 1, ValveSide.Exhaust, "exhaust cam", new ClearanceBand(0.17, 0.24)),
        ]);

    public static Population Worn { get; } = new(
        1, "worn", LossPrior.Ordinary, LossPrior.Ordinary, LossPrior.Ordinary, LossPrior.Ordinary);

    public static Population Dusty { get; } = new(
        2, "dusty", LossPrior.Dust, LossPrior.Dust, LossPrior.Ordinary, LossPrior.Dust);

    /// <summary>The engines of <see cref="Worn"/>, each felt by fingers of its own.</summary>
    public static Population OtherFingers { get; } = Worn with { Name = "worn, felt by fingers of their own", OwnFingers = true };

    /// <summary>The fingers of whoever does the job.</summary>
    public FeelProfile Fingers(int seed, int engine) =>
        OwnFingers ? Calibration.Somebody(new Draws(seed, Number, engine, (int)Stream.Person)) : FeelProfile.Default;

    /// <summary>The true clearances of one engine, drawn from the model's own expectation.</summary>
    public double[] Clearances(int seed, int engine)
    {
        var draws = new Draws(seed, Number, engine, (int)Stream.Clearances);
        bool oneCause = draws.Happens(0.5);
        double together = draws.CutExponential(OneCause.Shared, LossPrior.GreatestShared);
        double intake = draws.CutExponential(Intake.Shared, LossPrior.GreatestShared);
        double exhaust = draws.CutExponential(Exhaust.Shared, LossPrior.GreatestShared);
        return [.. Engine.Valves.Select(v => Clearance(
            v.Band, oneCause ? together : v.Side == ValveSide.Intake ? intake : exhaust, draws))];
    }

    private double Clearance(ClearanceBand band, double shared, Draws draws) =>
        draws.Happens(LossPrior.StrayWeight)
            ? draws.Uniform(band.Middle - LossPrior.StrayReach, band.Middle + LossPrior.StrayReach)
            : band.Middle + draws.Normal(band.Width / 4) - shared - draws.Exponential(OneCause.Own);
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
}
