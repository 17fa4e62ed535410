namespace Shimwright.Browser.Rooms;

/// <summary>A valve of the verdict: its gap as the page shows it, and whether it passes.</summary>
internal sealed record JudgedLine(string Valve, string Gap, string InBand, string Verdict);

/// <summary>The page of the verdict, on which a job is closed.</summary>
internal sealed class CloseRoom(IPage page) : JobRoom(page, "Close")
{
    public Task<string> HeadlineAsync() => Page.Locator("#verdict").InnerTextAsync();

    public async Task<IReadOnlyList<JudgedLine>> LinesAsync()
    {
        List<JudgedLine> lines = [];
        foreach (ILocator row in await Page.Locator("table.verdict tbody tr").AllAsync())
        {
            async Task<string> Cell(string label) => (await row.Locator($"td[data-label='{label}']").InnerTextAsync()).Trim();
            lines.Add(new((await row.Locator("th").InnerTextAsync()).Trim(), await Cell("Gap now"), await Cell("In band"), await Cell("Verdict")));
        }

        return lines;
    }

    /// <summary>Writes down what the owner should know and closes the job.</summary>
    public async Task CloseAsync(string clock, string found, string notes, string by)
    {
        await Page.GetByLabel("Engine's clock now").FillAsync(clock);
        await Page.GetByLabel("What was found").FillAsync(found);
        await Page.GetByLabel("Notes for the customer").FillAsync(notes);
        await Page.GetByLabel("Work done by").FillAsync(by);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Close the job" }).ClickAsync();
    }
}
