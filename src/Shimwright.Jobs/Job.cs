using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Advice;
using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Bounds;
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
        History = start?.History ?? [.. sections.History.TakeLast(Limits.MostPastChecks(Engine.Valves.Count)).Select(p => ToWearCheck(p.Check, [.. p.Changed.InOrder(Engine)], sections.Settings.Feel))];
        Rounds = start?.Rounds ?? [.. sections.Rounds.Select(p => ToWearCheck(p.Check, [.. p.Changed.InOrder(Engine)], sections.Settings.Feel))];
        AllChecks = [.. History, .. Rounds, ToWearCheck(check, [], sections.Settings.Feel)];
        _past = start?._past ?? new(() => History.Count == 0 ? null : WearFilter.Follow(History, UsualWear, Rules.Seating));
        _check = new(CheckAfterAll);
        Blades = check.Blades;
        Depths = check.Readings.Depths;
        _fitted = check.Fitted.ByValve;
        Stock = sections.Stock;
        Costs = sections.Costs.Costs;
        RecheckTemperature = sections.Recheck?.Temperature ?? check.Temperature;
        Changes = sections.Recheck is { } recheck ? [.. recheck.Changed.InOrder(Engine)] : [];
        ChangedSection[] stages = sections.Recheck is { } work ? [.. DryWork.StagesOf(work, Engine)] : [];
        DryFits = [.. stages.SkipLast(1).Zip(sections.Recheck?.DryFits ?? [], (stage, dry) => new DryFit(dry.Access!, [.. stage.Made(Engine)], dry.InOrder(Engine)))];
        LastChanges = stages.Length > 0 ? [.. stages[^1].Made(Engine)] : [];
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

    /// <summary>Past checks that count, oldest first.</summary>
    public IReadOnlyList<WearCheck> History { get; }

    /// <summary>Earlier rounds of the same work, oldest first.</summary>
    public IReadOnlyList<WearCheck> Rounds { get; }

    /// <summary>Past checks, earlier rounds and this check, oldest first, as they were read.</summary>
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

    /// <summary>The dry fits before the re-check, in their order.</summary>
    public IReadOnlyList<DryFit> DryFits { get; }

    /// <summary>What was done after the last dry fit; all that was done where there was none.</summary>
    public IReadOnlyList<Adjustment> LastChanges { get; }

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
    public PlanRequest ToPlanRequest() => ToPlanRequest(Engine.Valvetrain.HasShims ? [.. Engine.Valves.Select(v => _fitted[v.Id])] : [], Stock);

    /// <summary>
    /// All that advice on the next thing rests on. Where the shim of a valve is not known yet, sizes for sale count as whole steps from
    /// what is in it.
    /// </summary>
    /// <returns>The request.</returns>
    public AdviceRequest ToAdviceRequest()
    {
        bool isKnown = !Engine.Valvetrain.HasShims || Engine.Valves.All(v => _fitted.ContainsKey(v.Id));
        (ActionMinutes minutes, Instrument micrometer) = (Sections.Settings.Minutes, Sections.Settings.Instruments.Micrometer);
        // A shim that nobody has seen is none that could be measured instead of being read.
        var assumed = AssumedShims.Of(Engine.Valves.Count, Stock, Sections.Settings.Instruments.Marked);
        return isKnown
            ? new(ToPlanRequest(), Blades, minutes, micrometer)
            : new(ToPlanRequest(assumed.Fitted, assumed.Stock), Blades, minutes.Without(ActionKind.Micrometer), micrometer);
    }

    private PlanRequest ToPlanRequest(IReadOnlyList<Thickness> fitted, Stock stock) =>
        new(Check, fitted, stock, Costs, Rules, Horizon > 0 ? ToHorizon() : null);

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

    /// <summary>The re-check, after the dry fits before it; the file must have been read for a verdict.</summary>
    /// <returns>The re-check.</returns>
    public Recheck ToRecheck()
    {
        if (Sections.Recheck is not { DryFits.Count: > 0 } again)
        {
            return RecheckOf(Check, Changes, Rechecked);
        }

        IReadOnlyList<ChangedSection> stages = DryWork.StagesOf(again, Engine);
        EngineCheck check = Check;
        foreach ((DryFitSection dry, ChangedSection changed) in again.DryFits.Zip(stages))
        {
            check = RecheckOf(check, [.. changed.InOrder(Engine)], dry.InOrder(Engine)).ToCheck();
        }

        return RecheckOf(check, [.. stages[^1].InOrder(Engine)], Rechecked);
    }

    private Recheck RecheckOf(EngineCheck before, IReadOnlyList<Adjustment> changes, IReadOnlyList<ValveReadings> readings) =>
        new(before, changes, readings, RecheckTemperature, Rules.Seating, Sections.Settings.Pass);

    /// <summary>
    /// The next round: the re-check is its check, what was changed is in the engine, and what this round left of every valve is its
    /// prior. While camshafts lie dry the last dry fit is its check, and those camshafts are out already. The file must have been read for
    /// a second plan.
    /// </summary>
    /// <returns>The job.</returns>
    /// <exception cref="InvalidOperationException">The job has no re-check.</exception>
    public Job NextRound()
    {
        RecheckSection recheck = Sections.Recheck ?? throw new InvalidOperationException("Only a re-check begins another round.");
        (IReadOnlyList<PastSection> rounds, CheckSection check) = DryWork.RoundsOf(Sections.Check!, recheck, RecheckTemperature, Engine);
        return new(Sections with
        {
            Rounds = [.. Sections.Rounds, .. rounds],
            Check = check,
            Recheck = null,
            Stock = DrawerAfterWork.Of(Stock, Changes),
            Costs = recheck.IsDry ? Sections.Costs with { Costs = Costs.WithOpen(recheck.DryFits.Select(d => d.Access!)) } : Sections.Costs,
        });
    }

    /// <summary>The check with what the past lets expect of it: of the first round, the engine's; of a later one, what the round before left.</summary>
    private EngineCheck CheckAfterAll()
    {
        WearCheck[] rounds = [.. AllChecks.Skip(History.Count)];
        EngineCheck check = _past.Value is { } past ? rounds[0].Check.After(past.PriorAt(rounds[0].Clock)) : rounds[0].Check;
        foreach ((WearCheck before, WearCheck now) in rounds.Zip(rounds.Skip(1)))
        {
            check = new Recheck(check, before.Changes, now.Check.Readings, now.Check.Temperature, Rules.Seating).ToCheck();
        }

        return check;
    }

    /// <summary>The card's wear; without one nothing wears, which is right where no time passes.</summary>
    private UsualWear UsualWear => Wear?.ToUsual(Engine.Sense) ?? UsualWear.None;

    private WearHorizon ToHorizon() => _past.Value is not { } past ? WearHorizon.Usual(Engine, UsualWear, Horizon)
        : WearHorizon.Known(
            (Rounds.Count == 0 ? past : WearFilter.Follow([.. History, .. Rounds], UsualWear, Rules.Seating)).PredictedAt(Clock), UsualWear, Horizon);

    private WearCheck ToWearCheck(CheckSection check, IReadOnlyList<Adjustment> changes, FeelProfile feel) => new(
        check.Clock!.Value,
        new EngineCheck(Engine, check.Readings.InOrder(Engine), check.Temperature, check.Loss, feel),
        Engine.Valves.Select(v => check.Fitted.ByValve.GetValueOrDefault(v.Id)),
        changes);
}
