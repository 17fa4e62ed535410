using static Microsoft.Playwright.Assertions;

namespace Shimwright.Browser.Rooms;

/// <summary>Answers to the questions for a new card: what is ticked, by its words, and what is typed, by its label.</summary>
internal sealed record EngineAnswers(string Name, string Train, string Cylinders, string Valves, string Access, IReadOnlyDictionary<string, string> Extra, IReadOnlyDictionary<string, string> Limits);

/// <summary>The questions from which an engine's card is made, and the page of the engine after them.</summary>
internal sealed class NewEngineRoom(IPage page)
{
    /// <summary>Answers them all and saves the engine.</summary>
    public async Task MakeAsync(EngineAnswers answers)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "Engines", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "New engine" }).ClickAsync();
        await OnScreenAsync(1);
        await page.GetByLabel("Name", new() { Exact = true }).FillAsync(answers.Name);
        await TickAsync(answers.Train);
        await page.Locator("input[name='cylinders']").FillAsync(answers.Cylinders);
        await TickAsync(answers.Valves);
        await GoOnAsync(2);
        await TickAsync(answers.Access);
        await FillAsync(answers.Extra);
        await GoOnAsync(3);
        await FillAsync(answers.Limits);
        await GoOnAsync(4);
        await GoOnAsync(5);
        await Expect(page.GetByText("Compare the limits with the manual")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save engine" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync(answers.Name);
    }

    /// <summary>Starts a job on the engine that is shown.</summary>
    public async Task StartJobAsync(string clock)
    {
        await page.Locator("input[name='Start.Clock']").FillAsync(clock);
        await page.GetByRole(AriaRole.Button, new() { Name = "Start a job" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("Measure:");
    }

    private async Task FillAsync(IReadOnlyDictionary<string, string> fields)
    {
        foreach ((string label, string text) in fields)
        {
            await page.GetByLabel(label, new() { Exact = true }).FillAsync(text);
        }
    }

    private Task TickAsync(string words) => page.GetByRole(AriaRole.Radio, new() { Name = words }).CheckAsync();

    private async Task GoOnAsync(int screen)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "Next", Exact = true }).ClickAsync();
        await OnScreenAsync(screen);
    }

    private Task OnScreenAsync(int screen) => Expect(page.GetByText(FormattableString.Invariant($"Step {screen} of 5"))).ToBeVisibleAsync();
}
