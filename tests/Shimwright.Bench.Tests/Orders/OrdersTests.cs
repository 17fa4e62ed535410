using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Orders;
using Shimwright.Domain.Drawer;
using Shimwright.Jobs.Facts;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Orders;

/// <summary>The sample engine after a check that left its E2 at 0.17 under a band that begins at 0.22: it is due at once and wants about 2.415 mm for its 2.5.</summary>
public class OrdersTests
{
    private const double Diameter = 9.48;

    [Theory]
    [OnEachBench]
    public async Task ListAsync_ValveLeftOutside_OrdersTheSizeThatItWants(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        await EngineAsync(test.Bench, "Flood pump 7");
        FleetOrders fleet = await test.Bench.Orders.ListAsync(cancel: Cancel);
        DiameterOrders orders = Assert.Single(fleet.Diameters);
        Assert.Equal((9480, 1, 0.9), (orders.Diameter, orders.Engines, orders.Orders.ServiceLevel));
        Assert.InRange(orders.Demand.Wanted, 1, 2);
        OrderLine line = orders.Orders.Lines.MaxBy(l => l.Wanted.Mean)!;
        Assert.Equal((2.40, 8.0, 0, 1, 1), (line.Size, line.Price, line.OnHand, line.Level, line.ToOrder));
        Assert.True(line.CoveredNow < 0.5 && line.CoveredThen > 0.9);
        Assert.Equal(orders.Orders.Cost, fleet.Cost);
        Assert.Equal("Flood pump 7", Assert.Single(fleet.Counted).Name);
        Assert.Empty(fleet.NotCounted);
    }

    [Theory]
    [OnEachBench]
    public async Task ListAsync_ShimsInTheDrawer_CountForTheNearestSizeUnlessPromisedOrOfAnotherDiameter(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        await EngineAsync(test.Bench, "Flood pump 7");
        await PutInAsync(test.Bench, Diameter, 2.412, 1);
        await PutInAsync(test.Bench, Diameter, 2.45, 2);
        await PutInAsync(test.Bench, 13, 2.40, 5);
        OrderList orders = Assert.Single((await test.Bench.Orders.ListAsync(cancel: Cancel)).Diameters).Orders;
        OrderLine line = orders.Lines.Single(l => l.Size == 2.40);
        Assert.Equal((1, 0), (line.OnHand, line.ToOrder));
        Assert.Equal(2, orders.Lines.Single(l => l.Size == 2.45).OnHand);

        Guid job = await test.Bench.StartJobAsync((await test.Bench.Due.ListAsync(null, 0, 1, Cancel))[0].Id);
        await test.Bench.MeasureAsync(job);
        await test.Bench.SaveAsync(job, await PlanAsync(test.Bench, job));
        Assert.Equal(1, (await test.Bench.Drawer.LotsAsync(Cancel)).Sum(l => l.Promised));
        OrderList after = Assert.Single((await test.Bench.Orders.ListAsync(cancel: Cancel)).Diameters).Orders;
        Assert.Equal(2, after.Lines.Where(l => l.Size is > 2.39 and < 2.46).Sum(l => l.OnHand));
    }

    [Theory]
    [OnEachBench]
    public async Task ListAsync_EnginesOfEveryKind_AreCountedOrNamedWithTheReason(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        await EngineAsync(test.Bench, "Counted");
        await EngineAsync(test.Bench, "No diameter", diameter: null);
        await EngineAsync(test.Bench, "No usage", clearance: 0.265);
        await EngineAsync(test.Bench, "No shims known", shims: false);
        Guid later = await EngineAsync(test.Bench, "Later", clearance: 0.265);
        await test.Bench.Due.StateUsageAsync(later, 0.5, Cancel);
        await test.Bench.AddEngineAsync("Never checked");
        await test.Bench.Due.RefreshStaleAsync(100, Cancel);
        FleetOrders fleet = await test.Bench.Orders.ListAsync(cancel: Cancel);
        Assert.Equal(["Counted"], fleet.Counted.Select(c => c.Name));
        Assert.Equal(
            [("Never checked", NotCountedReason.NotChecked), ("No diameter", NotCountedReason.NoDiameter), ("No shims known", NotCountedReason.NoShims), ("No usage", NotCountedReason.NoUsage)],
            fleet.NotCounted.Select(n => (n.Name, n.Reason)).OrderBy(n => n.Name, StringComparer.Ordinal));
        Assert.Equal((1, 0), (fleet.Later, fleet.WithoutShims));

        FleetOrders far = await test.Bench.Orders.ListAsync(TimeSpan.FromDays(4000), 0.99, Cancel);
        Assert.Equal(["Counted", "Later"], far.Counted.Select(c => c.Name).Order(StringComparer.Ordinal));
        Assert.Equal((2, 0.99), (Assert.Single(far.Diameters).Engines, far.ServiceLevel));
    }

    /// <summary>An engine that has run on past its day wants more than on that day.</summary>
    [Theory]
    [OnEachBench]
    public async Task ListAsync_OverdueEngine_IsForeseenForToday(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid engine = await EngineAsync(test.Bench, "Flood pump 7", clearance: 0.265);
        await test.Bench.Due.StateUsageAsync(engine, 10, Cancel);
        await test.Bench.Due.RefreshStaleAsync(10, Cancel);
        double before = Assert.Single((await test.Bench.Orders.ListAsync(TimeSpan.FromDays(4000), cancel: Cancel)).Counted).Wanted;
        test.Time.Pass(TimeSpan.FromDays(1500));
        double after = Assert.Single((await test.Bench.Orders.ListAsync(cancel: Cancel)).Counted).Wanted;
        Assert.True(after > before + 0.3, $"{before} then {after}");
    }

    [Theory]
    [OnEachBench]
    public async Task ListAsync_NothingOnTheBench_IsEmpty(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        FleetOrders fleet = await test.Bench.Orders.ListAsync(cancel: Cancel);
        Assert.Empty(fleet.Diameters);
        Assert.Equal(0, fleet.Cost);
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => test.Bench.Orders.ListAsync(TimeSpan.FromDays(-1), cancel: Cancel));
    }

    private static async Task<Guid> EngineAsync(IBench bench, string name, double? diameter = Diameter, double clearance = 0.17, bool shims = true)
    {
        Guid engine = Guid.NewGuid();
        await bench.Engines.AddAsync(engine, name, Card(name), new CardDetails { ShimDiameter = diameter }, cancel: Cancel);
        Guid job = await bench.StartJobAsync(engine);
        await bench.SaveAsync(job,
        [
            new ClearanceRead(SheetPart.Check, "I1", 0.185, 0.003), new ClearanceRead(SheetPart.Check, "I2", 0.185, 0.003),
            new ClearanceRead(SheetPart.Check, "E1", 0.255, 0.003), new ClearanceRead(SheetPart.Check, "E2", clearance, 0.003),
            .. shims ? new[] { "I1", "I2", "E1", "E2" }.Select(v => new ThicknessFound(v, 2.5, "micrometer")) : [],
            new JobClosed(118, "", "", ""),
        ]);
        await bench.Due.RefreshStaleAsync(100, Cancel);
        return engine;
    }

    private static async Task PutInAsync(IBench bench, double diameter, double thickness, int count) =>
        Assert.True((await bench.Drawer.AddAsync(new(ShimSize.Of(diameter, thickness, "marked"), count), new(Guid.NewGuid(), "phone"), Cancel)).IsSaved);

    private static async Task<PlanAccepted> PlanAsync(IBench bench, Guid job) => PlanOf((await bench.FindJobAsync(job)).Sheet);
}
