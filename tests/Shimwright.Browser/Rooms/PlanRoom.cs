namespace Shimwright.Browser.Rooms;

/// <summary>A line of the plan as the page shows it, by the words above its cells.</summary>
internal sealed record PlanLine(string Valve, IReadOnlyDictionary<string, string> Cells, string Working);

/// <summary>The page of the plan.</summary>
internal sealed class PlanRoom(IPage page) : JobRoom(page, "Plan")
{
    /// <summary>What the plan comes to, by the words beside each figure.</summary>
    public async Task<IReadOnlyDictionary<string, string>> TotalsAsync()
    {
        IReadOnlyList<string> words = await Page.Locator("#plan dl.totals dt").AllInnerTextsAsync();
        IReadOnlyList<string> figures = await Page.Locator("#plan dl.totals dd").AllInnerTextsAsync();
        return words.Zip(figures).ToDictionary(t => t.First.Trim(), t => t.Second.Trim());
    }

    /// <summary>The plan valve by valve.</summary>
    public async Task<IReadOnlyList<PlanLine>> LinesAsync()
    {
        ILocator rows = Page.Locator("#plan table.plan tbody tr:not(.working)");
        IReadOnlyList<string> workings = await Page.Locator("#plan table.plan tbody tr.working").AllInnerTextsAsync();
        List<PlanLine> lines = [];
        for (int i = 0; i < workings.Count; i++)
        {
            ILocator row = rows.Nth(i);
            Dictionary<string, string> cells = [];
            foreach (ILocator cell in await row.Locator("td").AllAsync())
            {
                cells.Add((await cell.GetAttributeAsync("data-label"))!, (await cell.InnerTextAsync()).Trim());
            }

            lines.Add(new((await row.Locator("th").InnerTextAsync()).Trim(), cells, workings[i].Trim()));
        }

        return lines;
    }

    /// <summary>Accepts the plan that is shown.</summary>
    public Task AcceptAsync() => Page.GetByRole(AriaRole.Button, new() { Name = "Accept this plan" }).ClickAsync();
}
