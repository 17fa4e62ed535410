namespace Shimwright.Browser.Rooms;

/// <summary>A valve of the record: what was found, what was done, what is there now.</summary>
internal sealed record RecordLine(string Valve, string Found, string Done, string Now, string Verdict);

/// <summary>The record for the engine's owner.</summary>
internal sealed class RecordRoom(IPage page) : JobRoom(page, "Record")
{
    public ILocator Article => Page.Locator("article.record");

    public Task<string> SummaryAsync() => Article.Locator(".summary").InnerTextAsync();

    public async Task<IReadOnlyList<RecordLine>> LinesAsync()
    {
        List<RecordLine> lines = [];
        foreach (ILocator row in await Article.Locator("tbody tr").AllAsync())
        {
            string[] cells = [.. (await row.Locator("td").AllInnerTextsAsync()).Select(c => c.Trim())];
            string valve = (await row.Locator("th").InnerTextAsync()).Trim().Split(' ', '\n')[0];
            lines.Add(new(valve, cells[1], cells[2], cells[3], cells[5]));
        }

        return lines;
    }
}
