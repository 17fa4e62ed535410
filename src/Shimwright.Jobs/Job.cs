using Shimwright.Domain.Adjusting;
using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Sections;

namespace Shimwright.Jobs;

/// <summary>A job that was read without a problem, ready to be worked on.</summary>
public sealed class Job
{
    private readonly IReadOnlyDictionary<string, Thickness> _fitted;
    private readonly EngineSection _card;
    private readonly Lazy<EngineWear?> _past;
    private readonly Lazy<EngineCheck> _check;

    /// <summary>Makes a job of what was read; what is the same as when it started is taken from there.</summary>
    internal Job(JobSections sections, Job? start = null)
    {
        Sections = sections;
        EngineSection engine = sections.Engine!;
        _card = engine;
        Engine = start?.Engine ?? engine.ToEngine();
        Layout = engine.Layout;
        Wear = engine.Wear;
        CheckSection check = sections.Check!;
        Clock = check.Clock!.Value;
        Risk = sections.Settings.Risk;
        Rules = sections.Settings.Rules;
        Horizon = sections.Costs.Horizon;
        History = start?.History ?? [.. sections.History.Select(p => ToWearCheck(p.Check, [.. p.Changed.InOrder(Engine)], sections.Settings.Feel))];
        WearCheck now = ToWearCheck(check, [], sections.Settings.Feel);
        AllChecks = [.. History, now];
        _past = start?._past ?? new(() => History.Count == 0 ? null : WearFilter.Follow(History, UsualWear, Rules.Seating));
        _check = new(() => _past.Value is { } past ? now.Check.After(past.PriorAt(Clock)) : now.Check);
        Blades = check.Blades;
        Depths = check.Readings.Depths;
        _fitted = check.Fitted.ByValve;
        Stock = sections.Stock;
        Costs = sections.Costs.Costs;
        RecheckTemperature = sections.Recheck?.Temperature ?? check.Temperature;
        Changes = sections.Recheck is { } recheck ? [.. recheck.Changed.InOrder(Engine)] : [];
        Rechecked = sections.Recheck is { } again
            ? [.. again.Readings.InOrder(Engine)]
            : [.. Engine.Valves.Select(_ => ValveReadings.None)];
    }

    /// <summary>What was read, section by section.</summary>
    internal JobSections Sections { get; }

    /// <summary>The engine.</summary>
    public Engine Engine { get; }

    /// <summary>Cylinders and cam events, or null.</summary>
    public LayoutCard? Layout { get; }

    /// <summary>What wear is usual for the engine, or null.</summary>
    public WearCard? Wear { get; }

    /// <summary>The engine's automatic decompressor, or null.</summary>
    public DecompressorCard? Decompressor => _card.Decompressor;

    /// <summary>The check, with what the engine's past lets expect where it has one.</summary>
    public EngineCheck Check => _check.Value;

    /// <summary>Past checks, oldest first.</summary>
    public IReadOnlyList<WearCheck> History { get; }

    /// <summary>Past checks and this one, oldest first, as they were read.</summary>
    public IReadOnlyList<WearCheck> AllChecks { get; }

    /// <summary>The risk of a valve outside its band at which the next check is due.</summary>
    public double Risk { get; }

    /// <summary>How long the clearances should stay in band, on the engine's clock; 0 where only the re-check counts.</summary>
    public double Horizon { get; }

    /// <summary>The engine's clock at the check.</summary>
    public double Clock { get; }

    /// <summary>The person's blades, mm.</summary>
    public IReadOnlyList<double> Blades { get; }

    /// <summary>The clearances of the check that were found from depths, in the order of the readings.</summary>
    public IReadOnlyList<DepthBudget> Depths { get; }

    /// <summary>Drawer and shop.</summary>
    public Stock Stock { get; }

    /// <summary>Minutes and prices.</summary>
    public PlanCosts Costs { get; }

    /// <summary>Floors and seating.</summary>
    public PlanRules Rules { get; }

    /// <summary>What was done after the check.</summary>
    public IReadOnlyList<Adjustment> Changes { get; }

    /// <summary>What was read after the work, in the engine's order.</summary>
    public IReadOnlyList<ValveReadings> Rechecked { get; }

    /// <summary>Engine temperature at the re-check, °C; that of the check unless the re-check states its own.</summary>
    public double RecheckTemperature { get; }

    /// <summary>The thickness found at a valve, or null.</summary>
    /// <param name="valve">The valve.</param>
    /// <returns>The thickness.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valve"/> is null.</exception>
    public Thickness? FittedAt(Valve valve)
    {
        ArgumentNullException.ThrowIfNull(valve);
        return _fitted.GetValueOrDefault(valve.Id);
    }

    /// <summary>All that a plan rests on; the file must have been read for planning.</summary>
    /// <returns>The request.</returns>
    public PlanRequest ToPlanRequest() => new(
        Check,
        Engine.Valvetrain.HasShims ? [.. Engine.Valves.Select(v => _fitted[v.Id])] : [],
        Stock,
        Costs,
        Rules,
        Horizon > 0 ? ToHorizon() : null);

    /// <summary>Every valve at every check, this one included; the file must have been read for a forecast.</summary>
    /// <returns>What the checks say.</returns>
    public EngineWear ToEngineWear() => ToEngineWear(UsualWear);

    /// <summary>The same with other rates held usual than the card's, such as those of a fleet.</summary>
    /// <param name="usual">What wear is usual.</param>
    /// <returns>What the checks say.</returns>
    public EngineWear ToEngineWear(UsualWear usual) => WearFilter.Follow(AllChecks, usual, Rules.Seating);

    /// <summary>The crank layout; the file must have been read for the stops.</summary>
    /// <returns>The layout.</returns>
    public CrankLayout ToLayout() => _card.ToLayout();

    /// <summary>The re-check; the file must have been read for a verdict.</summary>
    /// <returns>The re-check.</returns>
    public Recheck ToRecheck() => new(
        Check, Changes, Rechecked, RecheckTemperature, Rules.Seating);

    /// <summary>The card's wear; without one nothing wears, which is right where no time passes.</summary>
    private UsualWear UsualWear => Wear?.ToUsual(Engine.Sense) ?? UsualWear.None;

    private WearHorizon ToHorizon() => _past.Value is { } past
        ? WearHorizon.Known(past.PredictedAt(Clock), UsualWear, Horizon)
        : WearHorizon.Usual(Engine, UsualWear, Horizon);

    private WearCheck ToWearCheck(CheckSection check, IReadOnlyList<Adjustment> changes, FeelProfile feel) => new(
        check.Clock!.Value,
        new EngineCheck(Engine, check.Readings.InOrder(Engine), check.Temperature, check.Loss, feel),
        Engine.Valves.Select(v => check.Fitted.ByValve.GetValueOrDefault(v.Id)),
        changes);
}
