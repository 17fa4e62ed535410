using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Planning;

/// <summary>One valve's line in a plan.</summary>
public sealed class PlannedValve
{
    private readonly ValveOption _option;
    private readonly ClearanceDistribution _before;
    private readonly Lazy<ClearanceEstimate?> _after;

    internal PlannedValve(Valve valve, Valvetrain train, ClearanceDistribution before, ClearanceEstimate estimate, Thickness? from, ValveOption option)
    {
        Valve = valve;
        Train = train;
        Estimate = estimate;
        From = from;
        _before = before;
        _option = option;
        _after = new Lazy<ClearanceEstimate?>(Predict);
    }

    /// <summary>The valve.</summary>
    public Valve Valve { get; }

    /// <summary>How its clearance is adjusted.</summary>
    public Valvetrain Train { get; }

    /// <summary>What is known of it before the work.</summary>
    public ClearanceEstimate Estimate { get; }

    /// <summary>The thickness found at the valve; null for a screw.</summary>
    public Thickness? From { get; }

    /// <summary>The thickness that would bring the valve to the middle of its band, mm; null for a screw.</summary>
    public double? Wanted => From is null ? null : Leverage.Of(Train).Wanted(From.Millimetres, Estimate.Mean, Valve.Band.Middle);

    /// <summary>What is done.</summary>
    public ValveAction Action => _option.Action;

    /// <summary>Whether the valve is kept under a group that is opened, and so seated anew.</summary>
    public bool IsSeatedAnew => _option.IsSeatedAnew;

    /// <summary>The thickness that is fitted, or null.</summary>
    public Thickness? To => _option.To;

    /// <summary>Where the fitted shim comes from; null where none is fitted.</summary>
    public ShimSource? Source => To is null ? null : _option.Source;

    /// <summary>The place in the engine, from 0, of the valve that gives the shim up; null unless it comes from the engine.</summary>
    public int? FromValve => _option.FromValve;

    /// <summary>Turns of the screw, positive for more clearance; null unless a screw is turned.</summary>
    public double? Turns => _option.Setting?.Turns;

    /// <summary>Whether nothing may be done and nothing helps.</summary>
    public bool IsStranded => _option.IsStranded;

    /// <summary>The chance of being in band afterwards; null for a stranded valve.</summary>
    public double? Chance => IsStranded ? null : _option.Chance;

    /// <summary>The clearance that is expected afterwards; null for a stranded valve.</summary>
    public ClearanceEstimate? After => _after.Value;

    private ClearanceEstimate? Predict()
    {
        if (IsStranded)
        {
            return null;
        }

        return Action switch
        {
            ValveAction.Keep when !IsSeatedAnew => Estimate with { InBand = _option.Chance },
            ValveAction.Turn => _option.Setting!.Then(_option.Chance),
            _ => _before.After(_option.Change).Summarise() with { InBand = _option.Chance },
        };
    }
}
