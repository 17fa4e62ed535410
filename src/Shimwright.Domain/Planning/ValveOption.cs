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
    public required double Chance
    {
        get;
        init
        {
            field = value;
            Doubt = value >= 1 ? 0 : -Math.Log(Math.Max(value, LeastChance));
        }
    }

    /// <summary>The chance of failing; 0 where the valve is stranded, which is in no sum.</summary>
    public double Failing => 1 - Chance;

    /// <summary>Swap time, what disturbing a good valve costs, and price, minutes.</summary>
    public double Minutes { get; init; }

    /// <summary>What it does to the clearance; a valve that is kept under an opened group is seated anew.</summary>
    public ClearanceChange Change { get; init; }

    /// <summary>Whether a kept valve is seated anew.</summary>
    public bool IsSeatedAnew { get; init; }

    /// <summary>How the screw is set; null unless one is turned.</summary>
    public ScrewSetting? Setting { get; init; }

    public Thickness? To { get; init; }

    public ShimSource Source { get; init; }

    /// <summary>The valve that gives the shim up.</summary>
    public int? FromValve { get; init; }

    public bool IsChange => Action != ValveAction.Keep;

    public bool IsBought => Action == ValveAction.Fit && Source == ShimSource.Buy;

    /// <summary>-ln of the chance: what this option adds to the doubt of the whole plan. Finite also where the chance is 0.</summary>
    public double Doubt { get; private init; }
}
