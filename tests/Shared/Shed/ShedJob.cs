using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Testing.Chance;

namespace Shimwright.Testing.Shed;

/// <summary>
/// Somebody's work on one engine, a step at a time: start, check, plan, fit, re-check, close. Now and then a plan is let go, its
/// accepting is taken back, or a closed job is opened again and closed once more.
/// </summary>
internal sealed class ShedJob(IShedBench bench, ShimWorld world, ShedEngine engine, int visit, Draws draws)
{
    private const double LetsGo = 0.04;
    private const double TakesBack = 0.04;
    private const double OpensAgain = 0.04;

    private readonly List<Shim> _tray = [];
    private readonly List<string> _changed = [];
    private Func<Task>? _next;
    private bool _isHesitant = true;

    public ShedEngine Engine => engine;

    public Guid Id { get; private set; }

    public bool IsClosed { get; private set; }

    /// <summary>The plan that was accepted and holds; null before and where it was let go.</summary>
    public PlanAccepted? Plan { get; private set; }

    /// <summary>What the job wanted, whatever the drawer had.</summary>
    public IReadOnlyList<WantedShim> Wanted { get; private set; } = [];

    /// <summary>The shims that were taken out of the drawer and are in the engine, the job being open.</summary>
    public List<Shim> FromDrawer { get; } = [];

    /// <summary>Shims that came out and lie on the tray.</summary>
    public IReadOnlyList<Shim> Tray => _tray;

    public ShedTally Tally { get; } = new();

    public Task StepAsync() => (_next ??= StartAsync)();

    /// <summary>What is promised to the job: each size, how many of it, and how many are fitted.</summary>
    public IReadOnlyDictionary<ShimSize, (int Count, int Fitted)> Promised() => IsClosed || Plan is null
        ? new Dictionary<ShimSize, (int, int)>()
        : Plan.Changes.Where(c => c.To is { Source: "drawer" }).GroupBy(c => SizeOf(c.To!.Thickness))
            .ToDictionary(g => g.Key, g => (g.Count(), FromDrawer.Count(s => s.Size == g.Key)));

    private async Task StartAsync()
    {
        ShedAnswer answer = await bench.AskAsync(new JobStarted(engine.Id, engine.Clock, draws.Id()));
        Id = answer.Job != Guid.Empty ? answer.Job : throw new InvalidOperationException($"A job was not started: {string.Join("; ", answer.Problems)}");
        _next = CheckAsync;
    }

    private async Task CheckAsync()
    {
        await SaveAsync(
        [
            .. engine.Engine.Valves.SelectMany((_, v) => engine.Feel(SheetPart.Check, v, visit)),
            .. engine.Engine.Valves.Select((v, i) => new ThicknessFound(v.Id, engine.Fitted[i].Size.ThicknessMm, engine.Fitted[i].Size.By)),
        ]);
        _next = PlanAsync;
    }

    private async Task PlanAsync()
    {
        ShedAnswer answer = await bench.AskAsync(new PlanAsked(Id));
        Wanted = answer.Wanted;
        _next = () => AcceptAsync(answer.Plan!);
    }

    /// <summary>The plan was looked at for a while. If another job has promised in between what it uses, a new one is made from what there is now.</summary>
    private async Task AcceptAsync(PlanAccepted plan)
    {
        Guid action = draws.Id();
        ShedAnswer accepted = await bench.AskAsync(new FactsAdded(Id, action, [plan]));
        if (!accepted.IsSaved)
        {
            Tally.Refused += accepted.Problems.All(p => p.Contains("from the drawer", StringComparison.Ordinal))
                ? 1
                : throw new InvalidOperationException($"A plan was refused: {string.Join("; ", accepted.Problems)}");
            _next = PlanAsync;
            return;
        }

        Plan = plan;
        _next = _isHesitant && draws.Happens(LetsGo + TakesBack)
            ? () => ThinkAgainAsync(draws.Happens(LetsGo / (LetsGo + TakesBack)) ? new PlanReleased() : new Undone(action))
            : plan.Changes.Any() ? FitAsync : CloseAsync;
    }

    private async Task ThinkAgainAsync(JobFact fact)
    {
        await SaveAsync([fact]);
        Plan = null;
        Tally.LetGo++;
        _isHesitant = false;
        _next = PlanAsync;
    }

    /// <summary>All old shims out first, then every valve gets its own: from another valve, out of the drawer, or bought for it.</summary>
    private async Task FitAsync()
    {
        PlanRow[] rows = [.. Plan!.Changes];
        Dictionary<string, Shim> old = rows.ToDictionary(r => r.Valve, r => engine.Fitted[engine.ValveAt(r.Valve)]);
        HashSet<Shim> handedOn = [];
        foreach (PlanRow row in rows)
        {
            Shim shim = row.To!.Source switch
            {
                "drawer" => world.Take(SizeOf(row.To.Thickness)),
                "engine" => old[row.To.FromValve!],
                _ => world.Make(SizeOf(row.To.Thickness)),
            };
            _ = row.To.Source switch { "drawer" => Keep(FromDrawer, shim), "engine" => handedOn.Add(shim), _ => ++Tally.Bought > 0 };
            engine.Fit(engine.ValveAt(row.Valve), shim);
            _changed.Add(row.Valve);
        }

        Tally.Taken += FromDrawer.Count;
        _tray.AddRange(old.Values.Where(s => !handedOn.Contains(s)));
        IReadOnlyList<string> steps = (await bench.AskAsync(new StepsAsked(Id))).Steps;
        await SaveAsync(
        [
            .. steps.Select(s => new StepTicked(s, true)),
            .. rows.Select(r => new ShimFitted(r.Valve, r.From!, new ThicknessRow(r.To!.Thickness, r.To.By))),
        ]);
        _next = RecheckAsync;
    }

    private async Task RecheckAsync()
    {
        await SaveAsync([.. _changed.SelectMany(v => engine.Feel(SheetPart.Recheck, engine.ValveAt(v), visit))]);
        _next = CloseAsync;
    }

    private async Task CloseAsync()
    {
        JobClosed closing = new(engine.Clock, "", "", "The shed");
        await SaveAsync([closing]);
        if (_tray.Count > 0 && draws.Happens(OpensAgain) && await ReopensAsync())
        {
            await SaveAsync([closing]);
        }

        _tray.ForEach(world.Lay);
        _tray.Clear();
        FromDrawer.Clear();
        IsClosed = true;
    }

    /// <summary>Nobody is at the drawer in between: what came out of the engine still lies on the tray.</summary>
    private async Task<bool> ReopensAsync()
    {
        ShedAnswer answer = await bench.AskAsync(new FactsAdded(Id, draws.Id(), [new JobReopened()]));
        Tally.Reopened += answer.IsSaved ? 1 : 0;
        return answer.IsSaved ? true
            : answer.Problems.All(p => p.Contains("has been used or promised since", StringComparison.Ordinal)) ? false
            : throw new InvalidOperationException($"A job could not be opened again: {string.Join("; ", answer.Problems)}");
    }

    private async Task SaveAsync(IReadOnlyList<JobFact> facts)
    {
        ShedAnswer answer = await bench.AskAsync(new FactsAdded(Id, draws.Id(), facts));
        if (!answer.IsSaved)
        {
            throw new InvalidOperationException($"Facts were not saved, {answer.Outcome}: {string.Join("; ", answer.Problems)}");
        }
    }

    private ShimSize SizeOf(double thickness) => ShimSize.Of(engine.Kind.Diameter, thickness, "marked");

    private static bool Keep(List<Shim> shims, Shim shim)
    {
        shims.Add(shim);
        return true;
    }
}

/// <summary>How often things happened.</summary>
internal sealed class ShedTally
{
    /// <summary>Shims taken out of the drawer.</summary>
    public int Taken { get; set; }

    /// <summary>Shims bought for a job because the drawer had none that would do.</summary>
    public int Bought { get; set; }

    /// <summary>Plans that were refused because another job had promised a shim of theirs.</summary>
    public int Refused { get; set; }

    /// <summary>Plans that were let go or whose accepting was taken back.</summary>
    public int LetGo { get; set; }

    /// <summary>Closed jobs that were opened again and closed once more.</summary>
    public int Reopened { get; set; }

    public void Add(ShedTally other)
    {
        Taken += other.Taken;
        Bought += other.Bought;
        Refused += other.Refused;
        LetGo += other.LetGo;
        Reopened += other.Reopened;
    }
}
