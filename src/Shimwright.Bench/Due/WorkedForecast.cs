using Shimwright.Bench.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Due;

namespace Shimwright.Bench.Due;

/// <summary>An engine with all that its forecast is worked out from, the bench's settings and its card's rates apart.</summary>
/// <param name="Id">The engine.</param>
/// <param name="Changes">Counts what its forecast rests on: jobs closed and opened again, usage stated.</param>
/// <param name="CardVersion">The version of its card.</param>
/// <param name="Card">Its card.</param>
/// <param name="Details">What a job file has no place for.</param>
/// <param name="PerWeek">What a person has said of its use, hours or km a week, or null.</param>
/// <param name="Past">Its past.</param>
public sealed record EngineToForecast(Guid Id, int Changes, int CardVersion, EngineCard Card, CardDetails Details, double? PerWeek, EnginePast Past)
{
    /// <summary>Whether what it says of its rates counts for those of its card. In a large fleet only some engines are heard: always the same ones, or the rates would move with every look.</summary>
    public bool Teaches { get; init; } = true;
}

/// <summary>What a forecast rested on: it is stale where any of that is another now.</summary>
/// <param name="Changes">What the engine had counted.</param>
/// <param name="CardVersion">The version of its card.</param>
/// <param name="RatesVersion">The version of what its card's engines had taught.</param>
/// <param name="SettingsMark">Tells the settings that matter here from others.</param>
public readonly record struct ForecastBasis(int Changes, int CardVersion, int RatesVersion, string SettingsMark);

/// <summary>What the valves of an engine say of their rates, by side.</summary>
/// <param name="Intake">Of the intake valves.</param>
/// <param name="Exhaust">Of the exhaust valves.</param>
public sealed record SideEvidence(IReadOnlyList<RateEvidence> Intake, IReadOnlyList<RateEvidence> Exhaust)
{
    /// <summary>Whether it was not checked often enough to say anything.</summary>
    public bool SaysNothing => Intake.Count == 0 && Exhaust.Count == 0;
}

/// <summary>A forecast as it was worked out last. It follows from the jobs and can be thrown away at any time.</summary>
/// <param name="Engine">The engine.</param>
/// <param name="Basis">What it rested on.</param>
/// <param name="Forecast">The forecast.</param>
/// <param name="Valves">The engine's valves as the last check left them, for the shims they will want.</param>
/// <param name="Evidence">What its valves say of their rates.</param>
public sealed record WorkedForecast(Guid Engine, ForecastBasis Basis, KeptForecast Forecast, ShimOutlook Valves, SideEvidence Evidence)
{
    /// <summary>The forecast as it is shown: null where every job of the engine was opened again.</summary>
    public KeptForecast? Shown => Forecast.Checks == 0 ? null : Forecast;
}

/// <summary>How fast the valves of a card's engines wear, as these have taught.</summary>
/// <param name="Version">Counts the changes that matter to a forecast; 0 where nothing was taught yet.</param>
/// <param name="Taught">The rates.</param>
public sealed record CardRates(int Version, TaughtRates Taught)
{
    /// <summary>Nothing was taught yet.</summary>
    public static CardRates None { get; } = new(0, new(null, null));
}

/// <summary>Forecasts of engines of one card, and the rates that they rest on.</summary>
/// <param name="Rates">The card's rates with these engines as they are now.</param>
/// <param name="Forecasts">The forecasts, one an engine, in the same order.</param>
public sealed record CardForecasts(CardRates Rates, IReadOnlyList<WorkedForecast> Forecasts);

/// <summary>Engines of one card that are to be worked out.</summary>
/// <param name="Engines">The engines.</param>
/// <param name="Others">What the card's other engines said of their rates when they were worked out last.</param>
/// <param name="Known">The card's rates so far.</param>
public sealed record CardToForecast(IReadOnlyList<EngineToForecast> Engines, IReadOnlyList<SideEvidence> Others, CardRates Known);
