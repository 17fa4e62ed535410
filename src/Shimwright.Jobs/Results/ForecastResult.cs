using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Domain.Wear.Signs;
using Shimwright.Jobs.Guidance;

namespace Shimwright.Jobs.Results;

/// <summary>Thickness above the thinnest shim that can be had, mm, and how long until it is used up, hours or km (null where nothing is lost).</summary>
/// <param name="Mm">The thickness that is left.</param>
/// <param name="Clock">How long it lasts.</param>
public sealed record RoomRow(double Mm, double? Clock);

/// <summary>Clearance taken up since the first record, mm.</summary>
/// <param name="Mm">The clearance that was taken up.</param>
public sealed record RecessionRow(double Mm);

/// <summary>One valve of a forecast.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="LossPerInterval">Clearance that it loses in an interval, mm.</param>
/// <param name="SdLossPerInterval">Standard deviation of that, mm.</param>
/// <param name="ChanceOutAtInterval">The chance that it is outside its band, or has been, after an interval.</param>
/// <param name="RoomLeft">How much thinner its shim can become; null where its shim or the thinnest one is not known.</param>
/// <param name="Recession">Clearance taken up since the first record, or null.</param>
public sealed record ForecastRow(
    string Valve, double LossPerInterval, [property: Bounds(0)] double SdLossPerInterval, [property: Bounds(0, 1)] double ChanceOutAtInterval, RoomRow? RoomLeft, RecessionRow? Recession);

/// <summary>A sign: what it is, how often chance alone would look so (for room nearly used, the chance of it), what to look at.</summary>
/// <param name="Sign">The sign, in a sentence.</param>
/// <param name="Evidence">How often chance alone would look so.</param>
/// <param name="LookAt">What to look at.</param>
public sealed record SignRow(string Sign, [property: Bounds(0, 1)] double Evidence, string LookAt);

/// <summary>The answer of the command forecast.</summary>
/// <param name="Format">shimwright-forecast/1.</param>
/// <param name="CheckBy">When to look again, on the engine's clock.</param>
/// <param name="Risk">The risk of a valve outside its band that was set as the limit.</param>
/// <param name="Valves">The valves, in the engine's order.</param>
/// <param name="Signs">What was noticed about the wear.</param>
public sealed record ForecastResult(
    [property: Words(ForecastResult.FormatName)] string Format, double CheckBy, [property: Bounds(0, 1)] double Risk, IReadOnlyList<ForecastRow> Valves, IReadOnlyList<SignRow> Signs)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-forecast/1";

    /// <summary>Forecasts a job that was read for a forecast.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static ForecastResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return From(job, job.ToEngineWear());
    }

    /// <summary>Forecasts a job whose valves were followed already.</summary>
    /// <param name="job">The job.</param>
    /// <param name="wear">What its checks say.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> or <paramref name="wear"/> is null.</exception>
    public static ForecastResult From(Job job, EngineWear wear)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(wear);
        EngineForecast forecast = EngineForecast.Of(wear, job.Risk);
        double? thinnest = job.Stock.Thinnest;
        return new(
            FormatName,
            Rounding.Clock(forecast.CheckBy),
            Rounding.Chance(forecast.Risk),
            [.. forecast.Valves.Select((valve, v) => new ForecastRow(
                valve.Valve.Id,
                Rounding.Length(valve.LossPerInterval),
                Rounding.Length(valve.LossSpread),
                Rounding.Chance(valve.ChanceOutAtInterval),
                RoomOf(job, valve.Valve, thinnest, wear.Now[v].Rate),
                wear.RecessionOf(v) is { } recession ? new RecessionRow(Rounding.Length(recession)) : null))],
            [.. WearSigns.Of(wear, thinnest).Select(sign => RowOf(sign, job))]);
    }

    /// <summary>A sign in words.</summary>
    internal static SignRow RowOf(WearSign sign, Job job) => new(
        SignWords.Of(sign.Kind, [.. sign.Valves.Select(v => job.Engine.Valves[v].Id)]),
        Rounding.Evidence(sign.Evidence),
        SignWords.LookAt(sign.Kind));

    private static RoomRow? RoomOf(Job job, Valve valve, double? thinnest, double rate)
    {
        if (job.FittedAt(valve) is not { } fitted || thinnest is not { } thin)
        {
            return null;
        }

        RoomLeft room = RoomLeft.Of(fitted.Millimetres, thin, Leverage.Of(job.Engine.Valvetrain), rate);
        return new RoomRow(Rounding.Length(room.Millimetres), room.Time is { } time ? Rounding.Clock(time) : null);
    }
}
