using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>The same job told otherwise.</summary>
internal static class RewrittenJob
{
    /// <summary>Every length passed through a function, such as to inches and back.</summary>
    public static PlanRequest WithLengths(PlanRequest job, Func<double, double> length)
    {
        Thickness Rewrite(Thickness t) => new(length(t.Millimetres), t.By);
        Engine engine = new(
            job.Engine.Name,
            job.Engine.Valvetrain,
            job.Engine.Valves.Select(v => new Valve(
                v.Id, v.Cylinder, v.Side, v.Access, new ClearanceBand(length(v.Band.Low), length(v.Band.High)))));
        IEnumerable<ValveReadings> readings = job.Check.Readings.Select(r => new ValveReadings(
            r.Trials.Select(t => new BladeTrial(length(t.Blade), t.Feel, t.Leaves)),
            r.Values.Select(v => new DirectValue(length(v.Millimetres), length(v.Uncertainty))),
            r.BucketTurns));
        return new(
            new EngineCheck(engine, readings),
            [.. job.Fitted.Select(Rewrite)],
            new Stock(
                [.. job.Stock.Drawer.Select(d => new DrawerShims(Rewrite(d.Thickness), d.Count))],
                [.. job.Stock.Sizes.Select(s => new PurchasableSize(Rewrite(s.Thickness), s.Price))]),
            job.Costs,
            job.Rules);
    }

    /// <summary>Valves, drawer and shop in another order.</summary>
    public static PlanRequest Shuffled(PlanRequest job, int seed)
    {
        var chance = new SeededChance(seed);
        int[] order = chance.Shuffled(Enumerable.Range(0, job.Engine.Valves.Count));
        Engine engine = new(job.Engine.Name, job.Engine.Valvetrain, order.Select(v => job.Engine.Valves[v]));
        return new(
            new EngineCheck(engine, order.Select(v => job.Check.Readings[v])),
            [.. order.Select(v => job.Fitted[v])],
            new Stock(chance.Shuffled(job.Stock.Drawer), chance.Shuffled(job.Stock.Sizes)),
            job.Costs,
            job.Rules);
    }

    /// <summary>One shim more in the drawer.</summary>
    public static PlanRequest WithShim(PlanRequest job, double millimetres)
    {
        // Known in a way that is in the job already, so that the estimate is divided no finer than before.
        var shim = new DrawerShims(new Thickness(millimetres, job.Fitted[0].By), 1);
        return new(job.Check, job.Fitted, job.Stock with { Drawer = [.. job.Stock.Drawer, shim] }, job.Costs, job.Rules);
    }
}
