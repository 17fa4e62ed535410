using System.Text.Json;
using Shimwright.Bench.Due;
using Shimwright.Bench.Orders;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Due;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Due;

/// <summary>Forecasts and rates as rows, and back.</summary>
internal static class ForecastRows
{
    /// <summary>Reads a forecast as it is shown; null where there is none.</summary>
    public static KeptForecast? Shown(KeptForecastRow? row) => row is null or { Checks: 0 } ? null : ForecastOf(row) with
    {
        Curve = [.. Numbers(row.Curve).Chunk(2).Select(p => new RiskPoint(p[0], p[1]))],
    };

    /// <summary>An engine with its forecast for counting what it will want: its curve is not asked for, and its valves only where it is due.</summary>
    public static FleetEngine InFleet(EngineRow engine, FleetCard card, KeptForecastRow? row) => new(
        engine.Id, engine.Name, engine.Changes, card, row is null ? null : ForecastOf(row),
        row is { Valves.Length: > 0 } ? () => ShimOutlook.Read(row.Valves) : null);

    /// <summary>Reads what valves say of their rates.</summary>
    public static SideEvidence Evidence(string intake, string exhaust) => new(Rates(intake), Rates(exhaust));

    /// <summary>Writes a forecast into its row.</summary>
    public static void Write(WorkedForecast worked, KeptForecastRow row)
    {
        (row.Changes, row.CardVersion, row.RatesVersion, row.SettingsMark) = (worked.Basis.Changes, worked.Basis.CardVersion, worked.Basis.RatesVersion, worked.Basis.SettingsMark);
        KeptForecast f = worked.Forecast;
        row.Checks = f.Checks;
        row.Clock = f.Clock;
        row.CheckBy = f.CheckBy;
        row.CountsKilometres = f.CountsKilometres;
        (row.LastClock, row.LastAt) = (f.Last.Clock, f.Last.At);
        (row.PerWeek, row.Usage) = (f.Usage.PerWeek, (int)f.Usage.Source);
        row.DueAt = f.DueAt;
        row.Risk = f.Risk;
        row.Curve = JsonSerializer.Serialize(f.Curve.SelectMany(p => new[] { p.Clock, p.Risk }));
        row.Valves = worked.Valves.Write();
        row.IntakeEvidence = Text(worked.Evidence.Intake);
        row.ExhaustEvidence = Text(worked.Evidence.Exhaust);
    }

    /// <summary>Reads a card's rates.</summary>
    public static CardRates Read(CardRatesRow? row) => row is null ? CardRates.None : new(row.Version, new(
        row is { IntakeMean: { } im, IntakeSpread: { } @is } ? new RateDistribution(im, @is) : null,
        row is { ExhaustMean: { } em, ExhaustSpread: { } es } ? new RateDistribution(em, es) : null));

    /// <summary>Writes a card's rates into their row.</summary>
    public static void Write(CardRates rates, CardRatesRow row)
    {
        row.Version = rates.Version;
        (row.IntakeMean, row.IntakeSpread) = (rates.Taught.Intake?.Mean, rates.Taught.Intake?.StandardDeviation);
        (row.ExhaustMean, row.ExhaustSpread) = (rates.Taught.Exhaust?.Mean, rates.Taught.Exhaust?.StandardDeviation);
    }

    private static KeptForecast ForecastOf(KeptForecastRow row) => new(
        row.Checks, row.Clock, row.CheckBy, row.CountsKilometres, new(row.LastClock, row.LastAt), new(row.PerWeek, (UsageSource)row.Usage), row.DueAt, row.Risk, []);

    private static string Text(IReadOnlyList<RateEvidence> evidence) => JsonSerializer.Serialize(evidence.SelectMany(e => new[] { e.Rate, e.Uncertainty }));

    private static IReadOnlyList<RateEvidence> Rates(string json) => [.. Numbers(json).Chunk(2).Select(p => new RateEvidence(p[0], p[1]))];

    private static double[] Numbers(string json) => JsonSerializer.Deserialize<double[]>(json) ?? [];
}
