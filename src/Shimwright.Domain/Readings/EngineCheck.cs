using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Readings;

/// <summary>One check of an engine: what was read at each valve, at what temperature, by whose fingers, with what expectation.</summary>
public sealed record EngineCheck
{
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
        Thermal = new ThermalShift(temperature, engine.ClearancePerDegree);
        Loss = loss ?? LossPrior.Ordinary;
        Feel = feel ?? FeelProfile.Default;
        Past = past;
        ArgumentOutOfRangeException.ThrowIfNotEqual(past?.Valves.Count ?? Readings.Count, Readings.Count, nameof(past));
    }

    /// <summary>The engine.</summary>
    public Engine Engine { get; }

    /// <summary>The readings of each valve, in the engine's order.</summary>
    public IReadOnlyList<ValveReadings> Readings { get; }

    /// <summary>What the engine's temperature did to the gaps.</summary>
    public ThermalShift Thermal { get; }

    /// <summary>What is expected before anything is felt.</summary>
    public LossPrior Loss { get; }

    /// <summary>The person's fingers and blades.</summary>
    public FeelProfile Feel { get; }

    /// <summary>What the engine's past lets expect; null where it is unknown.</summary>
    public HistoryPrior? Past { get; }

    /// <summary>The same check of an engine whose past is known.</summary>
    /// <param name="past">What the past lets expect.</param>
    /// <returns>The check.</returns>
    public EngineCheck After(HistoryPrior past) => new(Engine, Readings, Thermal.Temperature, Loss, Feel, past);
}
