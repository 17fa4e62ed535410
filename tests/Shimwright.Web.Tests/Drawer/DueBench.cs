using Shimwright.Bench.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Drawer;

/// <summary>Engines that are due: a check was closed that left E2 of the sample engine at 0.17 under a band that begins at 0.22, with 2.5 mm in it.</summary>
internal static class DueBench
{
    public static async Task<Guid> AddAsync(RunningBench bench, string name, CardDetails? details = null, double doubt = 0.003)
    {
        JobSetup setup = JobSetup.Begin(DemoEngine.Setup().Setup!.Card, 118, 20, new BenchSettings().ForJob(new Dictionary<string, double> { ["intake cam"] = 25 })).Setup!;
        var engine = Guid.NewGuid();
        await bench.Database.Engines.AddAsync(engine, name, setup.Card, details ?? new CardDetails { ShimDiameter = 9.48 }, cancel: TestContext.Current.CancellationToken);
        JobFact[] facts =
        [
            new ClearanceRead(SheetPart.Check, "I1", 0.185, 0.003), new ClearanceRead(SheetPart.Check, "I2", 0.185, 0.003),
            new ClearanceRead(SheetPart.Check, "E1", 0.255, 0.003), new ClearanceRead(SheetPart.Check, "E2", 0.17, doubt),
            .. new[] { "I1", "I2", "E1", "E2" }.Select(v => new ThicknessFound(v, 2.5, "micrometer")),
        ];
        Guid job = await bench.Database.Jobs.StartAsync(engine, setup, facts, Guid.NewGuid(), "test", TestContext.Current.CancellationToken);
        Assert.True((await bench.Database.Jobs.AddAsync(job, new(Guid.NewGuid(), "test", int.MaxValue, [new JobClosed(118, "", "", "")]), TestContext.Current.CancellationToken)).IsSaved);
        return engine;
    }
}
