using System.Text.RegularExpressions;
using Shimwright.Browser.Looks;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;
using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Work;

/// <summary>A whole job on a dusty single, done by a person in a window; every figure on the way is what the commands say of the job's file.</summary>
/// <param name="window">The window.</param>
/// <param name="screen">The screen.</param>
/// <param name="folder">Where files go.</param>
internal sealed class DustyJob(BenchWindow window, Screen screen, string folder)
{
    private static readonly EngineAnswers Engine = new(
        "Ferry tender, the spare", "Shim under bucket", "1", "4: two intake, two exhaust", "Intake and exhaust camshaft",
        new Dictionary<string, string>(),
        new Dictionary<string, string>
        {
            ["Intake, lower limit"] = "0.15",
            ["Intake, upper limit"] = "0,22",
            ["Exhaust, lower limit"] = "0.22",
            ["Exhaust, upper limit"] = "0.29 mm",
            ["Source of the limits"] = "The shed's own sheet, page 4",
        });

    /// <summary>One intake in band, one too tight; one exhaust too tight, one in band.</summary>
    private static readonly Felt[] Check =
    [
        new("I1", "0.18", "light"), new("I1", "0.20", "firm"),
        new("I2", "0.10", "light"), new("I2", "0.13", "won't enter"),
        new("E1", "0.18", "light"), new("E1", "0.20", "firm"),
        new("E2", "0.25", "light"), new("E2", "0.28", "won't enter"),
    ];

    /// <summary>From an engine that the bench has never seen to the record for its owner.</summary>
    public async Task RunAsync()
    {
        await window.GoAsync("/");
        var engine = new NewEngineRoom(window.Page);
        await engine.MakeAsync(Engine with { Name = $"{Engine.Name}, {screen.Name}" });
        await engine.StartJobAsync("186");

        await MeasureAsync();
        await EnterShimsAsync();
        string[] changed = await PlanAsync();
        await FitAsync(changed);
        await FeelAgainAsync(changed);
        await CloseAsync(changed);
        await TellAsync("single-record");
        await AssertOnBenchAsync();
        window.AssertQuiet();
    }

    private async Task MeasureAsync()
    {
        var measure = new ReadingRoom(window.Page, "Measure");
        await measure.AssertHereAsync("Measure");
        await measure.SuspectAsync("Dust got in");
        foreach (IGrouping<string, Felt> valve in Check.GroupBy(f => f.Valve))
        {
            await measure.ChooseAsync(valve.Key);
            foreach (Felt felt in valve)
            {
                await measure.TapAsync(felt);
            }

            if (valve.Key == "I2")
            {
                await TellAsync("single-measure");
            }

            await CommandFigures.AssertEstimateAsync(await measure.DownloadAsync(folder), valve.Key, await measure.Estimate.InnerTextAsync());
        }

        await measure.TapAsync(new("E2", "0.23", "loose"));
        await measure.UndoAsync();
        IReadOnlyDictionary<string, string> head = await measure.HeadAsync();
        Assert.Equal(["E1", "E2", "I1", "I2"], head.Keys.Order());
        await measure.AssertHereAsync("Shims");
        await measure.FollowAsync("Enter the shims");
    }

    private async Task EnterShimsAsync()
    {
        var shims = new ShimsRoom(window.Page);
        await shims.AssertHereAsync("Shims");
        await shims.EnterAsync("I1", "2.318", "micrometer");
        await shims.EnterAsync("I2", "2.347", "micrometer");
        await shims.EnterAsync("E1", "2,40", "marked");
        await shims.TapMarkAsync("E2", "2.35");
        await shims.AssertHereAsync("Plan");
        await shims.FollowAsync("Look at the plan");
    }

    /// <summary>Accepts the plan and says which valves it changes.</summary>
    private async Task<string[]> PlanAsync()
    {
        var plan = new PlanRoom(window.Page);
        await plan.AssertHereAsync("Plan");
        await CommandFigures.AssertPlanAsync(await plan.DownloadAsync(folder), plan);
        string[] changed = [.. (await plan.LinesAsync()).Where(l => l.Cells["Do"] == "change").Select(l => l.Valve)];
        Assert.Contains("I2", changed);
        Assert.Contains("E1", changed);
        await TellAsync("single-plan");
        await plan.AcceptAsync();
        return changed;
    }

    /// <summary>A picture for the guide, of the phone.</summary>
    private Task TellAsync(string name) => screen == Screen.Phone ? Screenshots.TellAsync(window.Page, name) : Task.CompletedTask;

    private async Task FitAsync(string[] changed)
    {
        var fit = new FitRoom(window.Page);
        await fit.AssertHereAsync("Fit");
        Assert.True(await fit.TickAllAsync() > changed.Length);
        await fit.AssertHereAsync("Re-check");
        await fit.FollowAsync("Re-check the changed valves");
    }

    private async Task FeelAgainAsync(string[] changed)
    {
        var again = new ReadingRoom(window.Page, "Re-check");
        await again.AssertHereAsync("Re-check");
        foreach (string valve in changed)
        {
            await again.ChooseAsync(valve);
            await again.TapAsync(new(valve, valve[0] == 'I' ? "0.18" : "0.25", "light"));
        }

        await again.AssertHereAsync("Close");
    }

    private async Task CloseAsync(string[] changed)
    {
        var close = new CloseRoom(window.Page);
        await close.OpenAsync();
        await close.AssertHereAsync("Close");
        Assert.Equal("All pass", await close.HeadlineAsync());
        string file = await close.DownloadAsync(folder);
        await CommandFigures.AssertVerdictAsync(file, await close.LinesAsync());
        await close.CloseAsync("187.5", "Worn by running at full load.", "Look again in 50 hours.", "The shed");

        var record = new RecordRoom(window.Page);
        await Expect(record.Article).ToContainTextAsync("Worn by running at full load.");
        Assert.StartsWith(
            $"{changed.Length} of 4 valves were adjusted. Checked, passes. Chance that all 4 valves are within the maker's limits: ",
            await record.SummaryAsync(), StringComparison.Ordinal);
        IReadOnlyList<RecordLine> lines = await record.LinesAsync();
        Assert.All(lines, l => Assert.Equal("passes", l.Verdict));
        Assert.Equal(changed.Order(), lines.Where(l => l.Done.Contains(" out, ", StringComparison.Ordinal)).Select(l => l.Valve).Order());
        await CommandFigures.AssertNowAsync(file, lines);
    }

    /// <summary>The job has gone from the open ones to the closed ones.</summary>
    private async Task AssertOnBenchAsync()
    {
        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Bench", Exact = true }).ClickAsync();
        ILocator closed = window.Page.Locator("details").Filter(new() { HasText = "Recently closed" });
        if (await closed.GetAttributeAsync("open") is null)
        {
            await closed.Locator("summary").ClickAsync();
        }

        ILocator link = window.Page.GetByRole(AriaRole.Link, new() { NameRegex = new Regex($"^{Regex.Escape($"{Engine.Name}, {screen.Name}")} [0-9]") });
        await Expect(link).ToHaveCountAsync(1);
        await link.ClickAsync();
        await Expect(new RecordRoom(window.Page).Article).ToContainTextAsync("Look again in 50 hours.");
    }
}
