using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Tests.Readings;

/// <summary>An engine whose clearances were drawn from the expectation, and the check that a mechanic made of it.</summary>
internal sealed class SimulatedEngine
{
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30, 0.35, 0.40];
    private readonly SeededChance _chance;
    private readonly FeelProfile _feel;
    private double _fingers;

    /// <summary>Draws an engine and its check.</summary>
    /// <param name="chance">Chance.</param>
    /// <param name="cylinders">Cylinders, each with an intake and an exhaust valve.</param>
    /// <param name="feel">The fingers that feel it; the usual ones, off by what they are in doubt by, where none are given.</param>
    /// <param name="believed">The fingers that the check says they are.</param>
    public SimulatedEngine(SeededChance chance, int cylinders, FeelProfile? feel = null, FeelProfile? believed = null)
    {
        _chance = chance;
        _feel = feel ?? FeelProfile.Default;
        _fingers = feel is null ? chance.Normal(0, FeelProfile.Default.Doubt) : 0;
        Valve[] valves =
        [
            .. Enumerable.Range(1, cylinders).Select(c => Made.Valve($"I{c}", access: "intake cam")),
            .. Enumerable.Range(1, cylinders).Select(c =>
                Made.Valve($"E{c}", ValveSide.Exhaust, "exhaust cam", new ClearanceBand(0.20, 0.26))),
        ];
        IsOneCause = chance.Happens(0.5);
        double intake = chance.Exponential(0.04, 0.24);
        double exhaust = IsOneCause ? intake : chance.Exponential(0.04, 0.24);
        Clearances = [.. valves.Select(v => Clearance(v.Band, v.Side == ValveSide.Intake ? intake : exhaust))];
        Check = new(Made.Engine(valves), valves.Select((v, i) => chance.Happens(0.8) ? Feel(v.Band, Clearances[i]) : ValveReadings.None), feel: believed);
    }

    /// <summary>Whether one cause moved both sides.</summary>
    public bool IsOneCause { get; }

    /// <summary>The true clearances.</summary>
    public double[] Clearances { get; }

    public EngineCheck Check { get; }

    /// <summary>Another check of the engine, for which the fingers are off anew.</summary>
    public void BeginAnotherCheck() => _fingers = _chance.Normal(0, FeelProfile.Default.Doubt);

    private double Clearance(ClearanceBand band, double shared) => _chance.Happens(0.03)
        ? _chance.Uniform(band.Middle - 0.5, band.Middle + 0.5)
        : _chance.Normal(band.Middle, band.Width / 4) - (shared * Share()) - _chance.Exponential(0.02);

    /// <summary>A valve's own share of the common loss: gamma with shape 2 and mean 1.</summary>
    private double Share() => _chance.Exponential(0.5) + _chance.Exponential(0.5);

    /// <summary>Three blades, each a step thicker or thinner than the one before as that one felt; a blade that is tried again has the same error.</summary>
    public ValveReadings Feel(ClearanceBand band, double clearance)
    {
        int at = Array.FindIndex(Blades, b => b >= band.Low - 1e-9);
        List<(double Blade, Feel Feel)> trials = [];
        double[] errors = [.. Blades.Select(_ => _chance.Normal(0, FeelProfile.Default.Blade))];
        for (int i = 0; i < 3; i++)
        {
            Feel felt = FeelOf(clearance - Blades[at] + errors[at]);
            trials.Add((Blades[at], felt));
            at = Math.Clamp(felt is Domain.Readings.Feel.No or Domain.Readings.Feel.Firm ? at - 1 : at + 1, 0, Blades.Length - 1);
        }

        return Made.Felt(trials);
    }

    private Feel FeelOf(double play)
    {
        if (_chance.Happens(0.02))
        {
            return (Feel)_chance.Whole(0, 3);
        }

        double felt = play + _fingers + _chance.Normal(0, _feel.StandardDeviation);
        return felt < _feel.Firm ? Domain.Readings.Feel.No
            : felt < _feel.Light ? Domain.Readings.Feel.Firm
            : felt < _feel.Loose ? Domain.Readings.Feel.Light
            : Domain.Readings.Feel.Loose;
    }
}
