using Shimwright.Domain.Wear;
using Shimwright.Jobs.Due;

namespace Shimwright.Bench.Due;

/// <summary>When an engine is due, as it is kept.</summary>
/// <param name="Checks">How many times it was checked.</param>
/// <param name="Clock">Its clock at the last check.</param>
/// <param name="CheckBy">The clock by which to check again; null where the card does not say what wear is usual.</param>
/// <param name="CountsKilometres">Whether the clock counts kilometres.</param>
/// <param name="Last">What the clock showed last.</param>
/// <param name="Usage">How much it is used.</param>
/// <param name="DueAt">The day on which it is due, UTC; null where that cannot be said.</param>
/// <param name="Risk">The risk at which a check is due.</param>
/// <param name="Curve">The risk curve.</param>
public sealed record KeptForecast(
    int Checks, double Clock, double? CheckBy, bool CountsKilometres, ClockSeen Last, EngineUsage Usage, DateTime? DueAt,
    double Risk, IReadOnlyList<RiskPoint> Curve);

/// <summary>An engine in the list of what is due.</summary>
/// <param name="Id">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="Forecast">Its forecast; null where no job on it was closed yet.</param>
public sealed record DueEngine(Guid Id, string Name, KeptForecast? Forecast);

/// <summary>An engine's past and what is to be expected of it.</summary>
/// <param name="Outlook">The job file that begins where the last job left it.</param>
/// <param name="Usual">What wear is usual: the card's, or what its engines have taught.</param>
/// <param name="IsPooled">Whether engines of the card have taught it.</param>
public sealed record StoredOutlook(EngineOutlook Outlook, UsualWear Usual, bool IsPooled);

/// <summary>The rates that the engines of a card have taught.</summary>
/// <param name="Intake">Of the intake valves, or null.</param>
/// <param name="Exhaust">Of the exhaust valves, or null.</param>
public sealed record TaughtRates(RateDistribution? Intake, RateDistribution? Exhaust)
{
    /// <summary>A card's usual wear with what was taught in the place of what it says.</summary>
    /// <param name="card">What the card says.</param>
    /// <returns>Usual wear.</returns>
    public UsualWear On(UsualWear card)
    {
        ArgumentNullException.ThrowIfNull(card);
        UsualWear usual = Intake is null ? card : card.With(Domain.Engines.ValveSide.Intake, Intake);
        return Exhaust is null ? usual : usual.With(Domain.Engines.ValveSide.Exhaust, Exhaust);
    }
}
