namespace Shimwright.Browser.Rooms;

/// <summary>A line of the plan as the page shows it, by the words above its cells.</summary>
internal sealed record PlanLine(string Valve, IReadOnlyDictionary<string, string> Cells, string Working);

/// <summary>The page of the plan.</summary>
internal sealed class PlanRoom(IPage page) : JobRoom(page, "Plan")
{
    /// <summary>What the plan comes to, by the words beside each figure; the chance is in the sentence.</summary>
    public async Task<IReadOnlyDictionary<string, string>> TotalsAsync()
    {
        IReadOnlyList<string> words = await Page.Locator("#plan dl.totals dt").AllInnerTextsAsync();
        IReadOnlyList<string> figures = await Page.Locator("#plan dl.totals dd").AllInnerTextsAsync();
        return words.Zip(figures).ToDictionary(t => t.First.Trim(), t => t.Second.Trim());
    }

    /// <summary>What the plan is, in its first sentence.</summary>
    public Task<string> SentenceAsync() => Page.Locator("#plan .do-now p").First.InnerTextAsync();

    /// <summary>The plan valve by valve, as the page has them; what is behind a fold too.</summary>
    public async Task<IReadOnlyList<PlanLine>> LinesAsync()
    {
        List<PlanLine> lines = [];
        foreach (ILocator row in await Page.Locator("#plan .moves [data-valve]").AllAsync())
        {
            Dictionary<string, string> cells = new() { ["Do"] = (await row.GetAttributeAsync("data-do"))! };
            foreach (ILocator cell in await row.Locator("[data-label]").AllAsync())
            {
                cells.Add((await cell.GetAttributeAsync("data-label"))!, (await cell.TextContentAsync())!.Trim());
            }

            lines.Add(new((await row.GetAttributeAsync("data-valve"))!, cells, cells["Working"]));
        }

        return lines;
    }

    /// <summary>Accepts the plan that is shown.</summary>
    public Task AcceptAsync() => Page.GetByRole(AriaRole.Button, new() { Name = "Accept this plan" }).ClickAsync();
}
