using Shimwright.Domain.Drawer;

namespace Shimwright.Bench.Orders;

/// <summary>What engines will want of shims of one diameter.</summary>
/// <param name="Diameter">Diameter, whole micrometres.</param>
/// <param name="Orders">Size by size: how many will be wanted, how many are free, what to order.</param>
/// <param name="Demand">The demand behind it.</param>
/// <param name="Wants">What each valve will want.</param>
/// <param name="Engines">How many engines.</param>
public sealed record DiameterOrders(int Diameter, OrderList Orders, FleetDemand Demand, IReadOnlyList<ThicknessWant> Wants, int Engines)
{
    /// <summary>Diameter, mm.</summary>
    public double DiameterMm => Diameter / 1000.0;
}

/// <summary>An engine whose check falls into the horizon.</summary>
/// <param name="Id">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="DueAt">The day on which it is due, UTC.</param>
/// <param name="Diameter">Diameter of its shims, whole micrometres.</param>
/// <param name="Wanted">How many shims it will want, on average.</param>
/// <param name="Unknown">How many of its valves are not counted, since nobody has said which shim is in them.</param>
public sealed record CountedEngine(Guid Id, string Name, DateTime DueAt, int Diameter, double Wanted, int Unknown);

/// <summary>Why an engine is not counted.</summary>
public enum NotCountedReason
{
    /// <summary>No job on it was closed yet.</summary>
    NotChecked,

    /// <summary>Its card does not say what wear is usual.</summary>
    NoWear,

    /// <summary>Nobody can say on which day it is due, since its usage is not known.</summary>
    NoUsage,

    /// <summary>Its card does not name the diameter of its shims.</summary>
    NoDiameter,

    /// <summary>Nobody has said which shims are in it.</summary>
    NoShims,

    /// <summary>Its forecast is about to be worked out anew and does not have its valves yet.</summary>
    NotReady,
}

/// <summary>An engine that is not counted.</summary>
/// <param name="Id">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="Reason">Why.</param>
public sealed record NotCountedEngine(Guid Id, string Name, NotCountedReason Reason);

/// <summary>What to order for all engines that come due.</summary>
/// <param name="From">Today, UTC.</param>
/// <param name="Until">The end of the horizon, UTC.</param>
/// <param name="ServiceLevel">How often a size should be there when it is wanted.</param>
/// <param name="Diameters">The diameters, the smallest first.</param>
/// <param name="Counted">The engines counted, those due first at the head.</param>
/// <param name="NotCounted">Engines that would have to be counted, and why they are not.</param>
/// <param name="Later">How many engines come due later.</param>
/// <param name="WithoutShims">How many engines have screws instead of shims.</param>
public sealed record FleetOrders(
    DateTime From, DateTime Until, double ServiceLevel, IReadOnlyList<DiameterOrders> Diameters,
    IReadOnlyList<CountedEngine> Counted, IReadOnlyList<NotCountedEngine> NotCounted, int Later, int WithoutShims)
{
    /// <summary>What all orders cost.</summary>
    public double Cost => Diameters.Sum(d => d.Orders.Cost);
}
