using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Planning;

/// <summary>What is done at a valve.</summary>
public enum ValveAction
{
    /// <summary>Left as it is.</summary>
    Keep,

    /// <summary>Another thickness is fitted.</summary>
    Fit,

    /// <summary>The screw is turned.</summary>
    Turn,
}

/// <summary>Where a shim comes from.</summary>
public enum ShimSource
{
    /// <summary>From the drawer.</summary>
    Drawer,

    /// <summary>From another valve of the same engine.</summary>
    Engine,

    /// <summary>Bought.</summary>
    Buy,
}

/// <summary>One thing that may be done at one valve.</summary>
internal sealed record ValveOption
{
    private const double LeastChance = 1e-12;

    public required ValveAction Action { get; init; }

    /// <summary>Nothing may be done and nothing helps: the valve is named and left out of the product.</summary>
    public bool IsStranded { get; init; }

    /// <summary>The chance of being in band afterwards; 1 where the valve is stranded.</summary>
    public required double Chance { get; init; }

    /// <summary>Swap time and price, minutes.</summary>
    public double Minutes { get; init; }

    /// <summary>What it does to the clearance.</summary>
    public ClearanceChange Change { get; init; }

    /// <summary>How the screw is set; null unless one is turned.</summary>
    public ScrewSetting? Setting { get; init; }

    public Thickness? To { get; init; }

    public ShimSource Source { get; init; }

    /// <summary>The valve that gives the shim up.</summary>
    public int? FromValve { get; init; }

    public bool IsChange => Action != ValveAction.Keep;

    public bool IsBought => Action == ValveAction.Fit && Source == ShimSource.Buy;

    /// <summary>-ln of the chance: what this option adds to the doubt of the whole plan. Finite also where the chance is 0.</summary>
    public double NegLogChance => Chance >= 1 ? 0 : -Math.Log(Math.Max(Chance, LeastChance));
}
