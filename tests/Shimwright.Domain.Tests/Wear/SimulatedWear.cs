using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Tests.Wear;

/// <summary>An engine that wears as the model has it, and the checks that a mechanic made of it.</summary>
internal sealed class SimulatedWear
{
    private readonly SeededChance _chance;
    private readonly SimulatedEngine _fingers;
    private readonly UsualWear _wear;
    private double _clock;

    public SimulatedWear(SeededChance chance, UsualWear wear, int valves = 4)
    {
        _chance = chance;
        _wear = wear;
        // The same person feels the engine every time, and the filter takes those fingers as known.
        _fingers = new SimulatedEngine(chance, valves / 2, FeelProfile.Default);
        Engine = _fingers.Check.Engine;
        Clearances = [.. _fingers.Clearances];
        Rates = [.. Engine.Valves.Select(v => chance.Normal(wear.RateOf(v.Side).Mean, wear.RateOf(v.Side).StandardDeviation))];
    }

    public Engine Engine { get; }

    /// <summary>The true clearances now.</summary>
    public double[] Clearances { get; }

    /// <summary>The true rates.</summary>
    public double[] Rates { get; }

    public List<WearCheck> Checks { get; } = [];

    /// <summary>Runs the engine and feels every valve.</summary>
    public void Check(double time)
    {
        _clock += time;
        for (int v = 0; v < Clearances.Length; v++)
        {
            Clearances[v] -= (Rates[v] * time) + _chance.Normal(0, Math.Sqrt(_wear.Diffusion * time));
        }

        ValveReadings[] readings = [.. Engine.Valves.Select((valve, v) => _fingers.Feel(valve.Band, Clearances[v]))];
        Checks.Add(new WearCheck(_clock, new EngineCheck(Engine, readings)));
    }

    /// <summary>Brings every valve to the middle of its band, as far as the checks tell where it stands.</summary>
    public void Refit()
    {
        IReadOnlyList<WearState> now = WearFilter.Follow(Checks, _wear, strayWeight: 0).Now;
        List<Adjustment> changes = [];
        for (int v = 0; v < Clearances.Length; v++)
        {
            double shift = Engine.Valves[v].Band.Middle - now[v].Clearance;
            changes.Add(Adjustment.Fitted(v, Made.Measured(3), Made.Measured(3 - shift)));
            Clearances[v] += shift + _chance.Normal(0, Seating.Usual.ChangeUncertainty(Math.Sqrt(2) * 0.002));
        }

        Checks[^1] = new WearCheck(_clock, Checks[^1].Check, changes: changes);
    }

    /// <summary>Whether any valve is outside its band or leaves it in a time: below where it loses clearance, above where it gains.</summary>
    public bool LeavesWithin(double time) => Engine.Valves.Select((valve, v) =>
    {
        double distance = Rates[v] >= 0 ? Clearances[v] - valve.Band.Low : valve.Band.High - Clearances[v];
        if (Clearances[v] < valve.Band.Low || Clearances[v] > valve.Band.High)
        {
            return true;
        }

        // The end of the path first; then whether a path with these ends touched the limit between.
        double end = distance - (Math.Abs(Rates[v]) * time) + _chance.Normal(0, Math.Sqrt(_wear.Diffusion * time));
        return end <= 0 || _chance.Happens(Math.Exp(-2 * distance * end / (_wear.Diffusion * time)));
    }).ToArray().Any(left => left);
}
