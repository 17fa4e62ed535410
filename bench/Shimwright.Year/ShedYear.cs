using Shimwright.Testing.Shed;

namespace Shimwright.Year;

/// <summary>
/// The calendar of the shed. An engine comes in on the day that the bench says it is due, or a fortnight after its last check if that is
/// later. Every other week the order list is asked for what is wanted until the order after this one has come in, and sent off as it is;
/// what was ordered comes three days later.
/// </summary>
internal sealed class ShedYear(HireShed shed, IShedBench bench, ShedClock clock)
{
    public const int Stands = 6;
    public const int Period = 14;
    public const int Lead = 3;
    public const double ServiceLevel = 0.90;
    public const double PerWeek = 2.3;
    public const double Risk = 0.25;
    private const int LeastDays = 14;
    private const int Unknown = 60;
    private const int FirstRound = 28;
    private const int MostTicks = 12;
    private readonly Dictionary<ShedEngine, (DateTime Last, DateTime Next)> _visits = [];
    private readonly List<(DateTime At, OrderRow Row)> _coming = [];
    private readonly Dictionary<ShedJob, DateTime> _planned = [];
    private readonly List<ShedVisit> _seen = [];

    public List<ShedOrder> Orders { get; } = [];

    public int Days { get; private set; }

    /// <summary>Jobs that had to buy no shim on the way.</summary>
    public int Served { get; private set; }

    /// <summary>The days on which all engines had been checked once.</summary>
    public DateTime AllChecked { get; private set; }

    public async Task RunAsync(int jobs)
    {
        DateTime begin = clock.Now;
        await bench.AskAsync(new RiskSet(Risk));
        await shed.OpenAsync(PerWeek, from: 1.6, to: 2.8, each: 1);
        foreach ((int n, ShedEngine engine) in shed.Engines.Index())
        {
            _visits[engine] = (begin, begin.AddDays(n * FirstRound / shed.Engines.Count));
        }

        AllChecked = begin.AddDays(FirstRound + 1);
        for (; shed.Closed < jobs; Days++)
        {
            clock.MoveTo(begin.AddDays(Days));
            await MorningAsync();
            await DayAsync(jobs);
        }
    }

    /// <summary>What came of the orders in which all engines had been checked before, and whose time is over.</summary>
    public IReadOnlyList<OrderOutcome> Outcomes() =>
        [.. Orders.Where(o => o.At > AllChecked && o.Until <= clock.Now).Select(o => new OrderOutcome(o, [.. _seen.Where(v => o.Covers(v.At))]))];

    private async Task MorningAsync()
    {
        DateTime now = clock.Now;
        foreach ((DateTime At, OrderRow Row) delivery in _coming.Where(c => c.At <= now).ToArray())
        {
            await shed.PutInAsync(delivery.Row.Size, delivery.Row.ToOrder);
            _coming.Remove(delivery);
        }

        if (Days % Period != 0)
        {
            return;
        }

        await shed.StocktakeAsync();
        ShedAnswer list = await bench.AskAsync(new OrdersAsked(Period + Lead, ServiceLevel));
        Orders.Add(new(now, now.Date.AddDays(Period + Lead), list.Due, list.Orders));
        _coming.AddRange(list.Orders.Where(r => r.ToOrder > 0).Select(r => (now.AddDays(Lead), r)));
    }

    private async Task DayAsync(int jobs)
    {
        bool isEve = (Days + 1) % Period == 0;
        Queue<ShedEngine> queue = new(_visits.Where(v => v.Value.Next.Date <= clock.Now.Date && shed.Open.All(j => j.Engine != v.Key))
            .OrderBy(v => v.Value.Next).ThenBy(v => v.Key.Name, StringComparer.Ordinal).Select(v => v.Key));
        for (int tick = 0; (queue.Count > 0 || shed.Open.Count > 0) && (tick < MostTicks || isEve); tick++)
        {
            while (shed.FreeStands > 0 && queue.Count > 0 && shed.Closed + shed.Open.Count < jobs)
            {
                Start(queue.Dequeue());
            }

            await StepAsync();
            if (shed.Closed >= jobs)
            {
                return;
            }
        }
    }

    private void Start(ShedEngine engine)
    {
        double days = (clock.Now - _visits[engine].Last).TotalDays;
        engine.Run(days / 7 * PerWeek);
        shed.Start(engine);
    }

    private async Task StepAsync()
    {
        IReadOnlyList<ShedJob> closed = await shed.TickAsync();
        foreach (ShedJob job in shed.Open.Concat(closed).Where(j => j.Plan is not null))
        {
            _planned.TryAdd(job, clock.Now);
        }

        DateTime now = clock.Now;
        ShedAnswer[] due = await Task.WhenAll(closed.Select(j => bench.AskAsync(new DueAsked(j.Engine.Id))));
        foreach ((ShedJob job, ShedAnswer answer) in closed.Zip(due))
        {
            _seen.Add(new(_planned[job], job.Engine.Id, job.Wanted));
            _planned.Remove(job);
            Served += job.Tally.Bought == 0 ? 1 : 0;
            double days = answer.DueAt is { } at ? (at - now).TotalDays : Unknown;
            _visits[job.Engine] = (now, now.AddDays(Math.Max(days, LeastDays)));
        }

        clock.MoveTo(clock.Now.AddMinutes(10));
    }
}
