using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Orders;
using Shimwright.Domain.Drawer;
using Shimwright.Jobs.Facts;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.Drawer;

/// <summary>The sample engine after a check that left its E2 at 0.12 under a band that begins at 0.18: it is due at once and wants about 2.415 mm for its 2.5.</summary>
public class OrderStoreTests
{
    private const double Diameter = 9.48;

    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_ValveLeftOutside_OrdersTheSizeThatItWants(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await EngineAsync(database.Bench, "Hire bike 7");
        FleetOrders fleet = await database.Bench.Orders.ListAsync(cancel: Cancel);
        DiameterOrders orders = Assert.Single(fleet.Diameters);
        Assert.Equal((9480, 1, 0.9), (orders.Diameter, orders.Engines, orders.Orders.ServiceLevel));
        Assert.InRange(orders.Demand.Wanted, 1, 2);
        OrderLine line = orders.Orders.Lines.MaxBy(l => l.Wanted.Mean)!;
        Assert.Equal((2.40, 8.0, 0, 1, 1), (line.Size, line.Price, line.OnHand, line.Level, line.ToOrder));
        Assert.True(line.CoveredNow < 0.5 && line.CoveredThen > 0.9);
        Assert.Equal(orders.Orders.Cost, fleet.Cost);
        Assert.Equal("Hire bike 7", Assert.Single(fleet.Counted).Name);
        Assert.Empty(fleet.NotCounted);
    }

    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_ShimsInTheDrawer_CountForTheNearestSizeUnlessPromisedOrOfAnotherDiameter(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await EngineAsync(database.Bench, "Hire bike 7");
        await PutInAsync(database.Bench, Diameter, 2.412, 1);
        await PutInAsync(database.Bench, Diameter, 2.45, 2);
        await PutInAsync(database.Bench, 13, 2.40, 5);
        OrderList orders = Assert.Single((await database.Bench.Orders.ListAsync(cancel: Cancel)).Diameters).Orders;
        OrderLine line = orders.Lines.Single(l => l.Size == 2.40);
        Assert.Equal((1, 0), (line.OnHand, line.ToOrder));
        Assert.Equal(2, orders.Lines.Single(l => l.Size == 2.45).OnHand);

        Guid job = await database.Bench.StartJobAsync((await database.Bench.Due.ListAsync(null, 0, 1, Cancel))[0].Id);
        await database.Bench.MeasureAsync(job);
        await database.Bench.SaveAsync(job, await PlanAsync(database.Bench, job));
        Assert.Equal(1, (await database.Bench.Drawer.LotsAsync(Cancel)).Sum(l => l.Promised));
        OrderList after = Assert.Single((await database.Bench.Orders.ListAsync(cancel: Cancel)).Diameters).Orders;
        Assert.Equal(2, after.Lines.Where(l => l.Size is > 2.39 and < 2.46).Sum(l => l.OnHand));
    }

    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_EnginesOfEveryKind_AreCountedOrNamedWithTheReason(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await EngineAsync(database.Bench, "Counted");
        await EngineAsync(database.Bench, "No diameter", diameter: null);
        await EngineAsync(database.Bench, "No usage", clearance: 0.215);
        await EngineAsync(database.Bench, "No shims known", shims: false);
        Guid later = await EngineAsync(database.Bench, "Later", clearance: 0.215);
        await database.Bench.Due.StateUsageAsync(later, 0.5, Cancel);
        await database.Bench.AddEngineAsync("Never checked");
        await database.Bench.Due.RefreshStaleAsync(100, Cancel);
        FleetOrders fleet = await database.Bench.Orders.ListAsync(cancel: Cancel);
        Assert.Equal(["Counted"], fleet.Counted.Select(c => c.Name));
        Assert.Equal(
            [("Never checked", NotCountedReason.NotChecked), ("No diameter", NotCountedReason.NoDiameter), ("No shims known", NotCountedReason.NoShims), ("No usage", NotCountedReason.NoUsage)],
            fleet.NotCounted.Select(n => (n.Name, n.Reason)).OrderBy(n => n.Name, StringComparer.Ordinal));
        Assert.Equal((1, 0), (fleet.Later, fleet.WithoutShims));

        FleetOrders far = await database.Bench.Orders.ListAsync(TimeSpan.FromDays(4000), 0.99, Cancel);
        Assert.Equal(["Counted", "Later"], far.Counted.Select(c => c.Name).Order(StringComparer.Ordinal));
        Assert.Equal((2, 0.99), (Assert.Single(far.Diameters).Engines, far.ServiceLevel));
    }

    /// <summary>An engine that has run on past its day wants more than on that day.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_OverdueEngine_IsForeseenForToday(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Guid engine = await EngineAsync(database.Bench, "Hire bike 7", clearance: 0.215);
        await database.Bench.Due.StateUsageAsync(engine, 10, Cancel);
        await database.Bench.Due.RefreshStaleAsync(10, Cancel);
        double before = Assert.Single((await database.Bench.Orders.ListAsync(TimeSpan.FromDays(4000), cancel: Cancel)).Counted).Wanted;
        database.Time.Pass(TimeSpan.FromDays(1500));
        double after = Assert.Single((await database.Bench.Orders.ListAsync(cancel: Cancel)).Counted).Wanted;
        Assert.True(after > before + 0.3, $"{before} then {after}");
    }

    /// <summary>Forecasts that were kept before their valves were are worked out again, and until then named.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_ForecastOfAnOlderProgram_IsNamedThenWorkedOutAgain(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        await EngineAsync(database.Bench, "Hire bike 7");
        await using (BenchContext context = database.Bench.NewContext())
        {
            await context.Forecasts.ExecuteUpdateAsync(s => s.SetProperty(f => f.Valves, ""), Cancel);
        }

        Assert.Equal(NotCountedReason.NotReady, Assert.Single((await database.Bench.Orders.ListAsync(cancel: Cancel)).NotCounted).Reason);
        await database.Bench.Due.RefreshStaleAsync(10, Cancel);
        Assert.Single((await database.Bench.Orders.ListAsync(cancel: Cancel)).Counted);
    }

    [Fact]
    public async Task ListAsync_NothingOnTheBench_IsEmpty()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        FleetOrders fleet = await database.Bench.Orders.ListAsync(cancel: Cancel);
        Assert.Empty(fleet.Diameters);
        Assert.Equal(0, fleet.Cost);
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => database.Bench.Orders.ListAsync(TimeSpan.FromDays(-1), cancel: Cancel));
    }

    private static async Task<Guid> EngineAsync(BenchDatabase bench, string name, double? diameter = Diameter, double clearance = 0.12, bool shims = true)
    {
        Guid engine = Guid.NewGuid();
        await bench.Engines.AddAsync(engine, name, Card(name), new CardDetails { ShimDiameter = diameter }, cancel: Cancel);
        Guid job = await bench.StartJobAsync(engine);
        await bench.SaveAsync(job,
        [
            new ClearanceRead(SheetPart.Check, "I1", 0.135, 0.003), new ClearanceRead(SheetPart.Check, "I2", 0.135, 0.003),
            new ClearanceRead(SheetPart.Check, "E1", 0.205, 0.003), new ClearanceRead(SheetPart.Check, "E2", clearance, 0.003),
            .. shims ? new[] { "I1", "I2", "E1", "E2" }.Select(v => new ThicknessFound(v, 2.5, "micrometer")) : [],
            new JobClosed(118, "", "", ""),
        ]);
        await bench.Due.RefreshStaleAsync(100, Cancel);
        return engine;
    }

    private static async Task PutInAsync(BenchDatabase bench, double diameter, double thickness, int count) =>
        Assert.True((await bench.Drawer.AddAsync(new(ShimSize.Of(diameter, thickness, "marked"), count), new(Guid.NewGuid(), "phone"), Cancel)).IsSaved);

    private static async Task<PlanAccepted> PlanAsync(BenchDatabase bench, Guid job) => PlanOf((await bench.FindJobAsync(job)).Sheet);
}
