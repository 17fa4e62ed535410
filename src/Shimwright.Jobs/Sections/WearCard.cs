using Shimwright.Domain.Engines;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>What wear is usual for an engine. The forecast, a plan with a horizon and a past need it.</summary>
/// <param name="CountsKilometres">Whether the engine's clock counts kilometres instead of hours.</param>
/// <param name="Interval">The maker's interval between checks, on the engine's clock.</param>
/// <param name="LossPerInterval">Clearance that a valve loses in an interval on average, mm.</param>
/// <param name="Spread">Standard deviation of that loss between valves, mm.</param>
public sealed record WearCard(bool CountsKilometres, double Interval, double LossPerInterval, double Spread)
{
    private static readonly NumberMember Loss = new("lossPerInterval", new(-1, 1, Measure.Length), "Mean loss of clearance in an interval, mm.", UsualWear.OrdinaryLoss);
    private static readonly NumberMember Deviation = new("spread", new(0, 1, Measure.Length, LeastIsLeftOut: true), "Standard deviation of that loss, mm.", UsualWear.OrdinarySpread);

    private static readonly Dictionary<string, bool> Clocks = new(StringComparer.Ordinal)
    {
        ["hours"] = false,
        ["km"] = true,
    };

    /// <summary>The loss in an interval where the card says none, mm.</summary>
    public static double UsualLoss => Loss.Usual;

    /// <summary>The standard deviation of that loss where the card says none, mm.</summary>
    public static double UsualSpread => Deviation.Usual;

    /// <summary>The card as the domain knows it.</summary>
    /// <param name="sense">Which way wear moves the engine's gaps: a closing lever's gap grows by what an opening one's loses.</param>
    /// <returns>Usual wear.</returns>
    public UsualWear ToUsual(GapSense sense = GapSense.Opening) =>
        new(Interval, sense == GapSense.Closing ? -LossPerInterval : LossPerInterval, Spread);

    internal static WearCard? Read(ObjectMembers o)
    {
        bool? kilometres = o.Choice("clock", Clocks, "What the engine's clock counts.");
        double? interval = o.Number("interval", new(0, 10_000_000, LeastIsLeftOut: true), "The maker's interval between checks.", required: true);
        double loss = o.Number(Loss);
        double spread = o.Number(Deviation);
        return interval is { } i ? new(kilometres ?? false, i, loss, spread) : null;
    }
}
