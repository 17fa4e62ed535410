using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Work;

/// <summary>An engine with screws: no shims, turns instead of sizes.</summary>
public sealed class ScrewJobTests(EmptyBench bench, Chromium chromium) : IClassFixture<EmptyBench>
{
    private static readonly EngineAnswers Engine = new(
        "The wood saw", "Screw and lock nut", "1", "2: one intake, one exhaust", "One cover",
        new Dictionary<string, string> { ["Pitch of the screw"] = "0.75", ["Lever ratio"] = "1.35" },
        new Dictionary<string, string>
        {
            ["Intake, lower limit"] = "0.10",
            ["Intake, upper limit"] = "0.15",
            ["Exhaust, lower limit"] = "0.15",
            ["Exhaust, upper limit"] = "0.20",
        });

    [Fact]
    public async Task Job_OnScrews_GoesFromMeasureToPlanAndToItsRecord()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Phone);
        await window.GoAsync("/");
        var engine = new NewEngineRoom(window.Page);
        await engine.MakeAsync(Engine);
        await engine.StartJobAsync("40");

        var measure = new ReadingRoom(window.Page, "Measure");
        await ReadAsync(measure, new("I1", "0.18", "light"), new("I1", "0.20", "won't enter"), new("E1", "0.18", "light"), new("E1", "0.20", "firm"));
        await measure.AssertHereAsync("Plan");
        await measure.FollowAsync("See the plan");

        var plan = new PlanRoom(window.Page);
        await plan.AssertHereAsync("Plan");
        await CommandFigures.AssertPlanAsync(await plan.DownloadAsync(bench.Folder), plan);
        Assert.StartsWith("turn ", (await plan.LinesAsync()).Single(l => l.Valve == "I1").Cells["Do"], StringComparison.Ordinal);
        await plan.AcceptAsync();

        var fit = new FitRoom(window.Page);
        await fit.AssertHereAsync("Fit");
        await fit.TickAllAsync();
        await fit.FollowAsync("Re-check the changed valves");

        var again = new ReadingRoom(window.Page, "Re-check");
        await ReadAsync(again, new("I1", "0.10", "loose"), new Felt("I1", "0.13", "light"), new Felt("I1", "0.15", "firm"));
        var close = new CloseRoom(window.Page);
        await close.OpenAsync();
        await close.AssertHereAsync("Close");
        await close.CloseAsync("40", "", "", "");
        await Expect(new RecordRoom(window.Page).Article).ToContainTextAsync("screw ");
        window.AssertQuiet();
    }

    private static async Task ReadAsync(ReadingRoom room, params Felt[] felt)
    {
        foreach (IGrouping<string, Felt> valve in felt.GroupBy(f => f.Valve))
        {
            await room.ChooseAsync(valve.Key);
            foreach (Felt tap in valve)
            {
                await room.TapAsync(tap);
            }
        }
    }
}
