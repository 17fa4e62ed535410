using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Readings;

/// <summary>One check of an engine: what was read at each valve, at what temperature, by whose fingers, with what expectation.</summary>
public sealed record EngineCheck
{
    private readonly ThermalShift _intake;
    private readonly ThermalShift _exhaust;

    /// <summary>Makes a check.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="readings">The readings of each valve, in the engine's order; none where nothing was tried.</param>
    /// <param name="temperature">Engine temperature, °C.</param>
    /// <param name="loss">What is expected before anything is felt.</param>
    /// <param name="feel">The person's fingers and blades.</param>
    /// <param name="past">What the engine's past lets expect; null where it is unknown.</param>
    /// <exception cref="ArgumentNullException"><paramref name="engine"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="readings"/> or <paramref name="past"/> has not one entry a valve, or <paramref name="temperature"/> is outside its range.</exception>
    public EngineCheck(
        Engine engine,
        IEnumerable<ValveReadings> readings,
        double temperature = ThermalShift.Reference,
        LossPrior? loss = null,
        FeelProfile? feel = null,
        HistoryPrior? past = null)
    {
        ArgumentNullException.ThrowIfNull(engine);
        Engine = engine;
        Readings = [.. readings];
        ArgumentOutOfRangeException.ThrowIfNotEqual(Readings.Count, engine.Valves.Count, nameof(readings));
        _intake = new ThermalShift(temperature, engine.ClearancePerDegreeOf(ValveSide.Intake));
        _exhaust = new ThermalShift(temperature, engine.ClearancePerDegreeOf(ValveSide.Exhaust));
        Loss = loss ?? LossPrior.Ordinary;
        Feel = feel ?? FeelProfile.Default;
        Past = past;
        ArgumentOutOfRangeException.ThrowIfNotEqual(past?.Valves.Count ?? Readings.Count, Readings.Count, nameof(past));
    }

    /// <summary>The engine.</summary>
    public Engine Engine { get; }

    /// <summary>The readings of each valve, in the engine's order.</summary>
    public IReadOnlyList<ValveReadings> Readings { get; private init; }

    /// <summary>Engine temperature at the check, °C.</summary>
    public double Temperature => _intake.Temperature;

    /// <summary>Whether the check was taken far from 20 °C with nothing known to correct it.</summary>
    public bool IsTemperatureDoubtful => _intake.IsDoubtful || _exhaust.IsDoubtful;

    /// <summary>What is expected before anything is felt.</summary>
    public LossPrior Loss { get; }

    /// <summary>The person's fingers and blades.</summary>
    public FeelProfile Feel { get; }

    /// <summary>What the engine's past lets expect; null where it is unknown.</summary>
    public HistoryPrior? Past { get; }

    /// <summary>What an earlier round of the same work left of the valves; null where this is the first.</summary>
    public RoundPrior? Round { get; private init; }

    /// <summary>What the engine's temperature did to the gap of a valve.</summary>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <returns>The shift of its side.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valve"/> is none of the engine's.</exception>
    public ThermalShift ShiftAt(int valve)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(valve);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(valve, Engine.Valves.Count);
        return Engine.Valves[valve].Side == ValveSide.Intake ? _intake : _exhaust;
    }

    /// <summary>The same check of an engine whose past is known.</summary>
    /// <param name="past">What the past lets expect.</param>
    /// <returns>The check.</returns>
    public EngineCheck After(HistoryPrior past) => new(Engine, Readings, Temperature, Loss, Feel, past);

    /// <summary>The same check as a later round of the same work.</summary>
    /// <param name="round">What the round before left.</param>
    /// <returns>The check.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="round"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="round"/> has not one entry a valve.</exception>
    public EngineCheck InRound(RoundPrior round)
    {
        ArgumentNullException.ThrowIfNull(round);
        ArgumentOutOfRangeException.ThrowIfNotEqual(round.Valves.Count, Readings.Count, nameof(round));
        return this with { Round = round };
    }

    /// <summary>The check in which a valve was read as it is now: this one, or an earlier round that left it alone.</summary>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <returns>The check; null where there is none.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valve"/> is none of the engine's.</exception>
    public EngineCheck? ReadAt(int valve)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(valve);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(valve, Engine.Valves.Count);
        return Readings[valve].IsEmpty ? Round?.Valves[valve].LastRead : this;
    }

    /// <summary>The same check with more read at one valve.</summary>
    internal EngineCheck With(int valve, ValveReadings more) =>
        this with { Readings = [.. Readings.Select((r, v) => v == valve ? r.With(more) : r)] };

    /// <summary>Whether more is going to be read: then what may be learnt counts for the offsets from the first.</summary>
    internal bool IsOpen { get; private init; }

    /// <summary>The same check, in which more is going to be read.</summary>
    internal EngineCheck Open => this with { IsOpen = true };

    /// <summary>The same check without doubt about fingers and heat: for a past in which the same person felt the engine every time.</summary>
    internal EngineCheck WithoutOffsets => new(Engine, Readings, Temperature, Loss, Feel.WithoutDoubt, Past)
    {
        CountsHeatDoubt = false,
    };

    /// <summary>Whether an unknown κ is an offset that the readings share.</summary>
    internal bool CountsHeatDoubt { get; private init; } = true;

    /// <summary>Other readings of the same engine by the same fingers, as a re-check is: nothing is said of a past.</summary>
    /// <param name="readings">The readings of each valve, in the engine's order.</param>
    /// <param name="temperature">Engine temperature, °C.</param>
    /// <returns>The check.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="readings"/> has not one entry a valve, or <paramref name="temperature"/> is outside its range.</exception>
    public EngineCheck Again(IEnumerable<ValveReadings> readings, double temperature) => new(Engine, readings, temperature, Loss, Feel);
}
