using Shimwright.Bench.InMemory;
using Shimwright.Pages.Tests.Samples;
using Shimwright.Pages.Tests.Served;
using Shimwright.Testing.Workshop;

namespace Shimwright.Pages.Tests.Files;

public sealed class YearPageTests
{
    [Fact]
    public async Task Year_WithoutAClosedJob_SaysWhatToDo() => Assert.Contains("No job was closed in the last twelve months", await PageAsync(false), StringComparison.Ordinal);

    [Fact]
    public async Task Year_WithPastWork_HasItsFiguresInWordsPicturesAndTables()
    {
        string page = await PageAsync(true);
        Assert.Matches(@"<p>\d+ of \d+ jobs passed first time</p>", page);
        Assert.Contains("<title id=\"year-rate-title\">", page, StringComparison.Ordinal);
        Assert.Contains("Nov 2026", page, StringComparison.Ordinal);
        Assert.Contains("/year.csv", page, StringComparison.Ordinal);
    }

    private static async Task<string> PageAsync(bool isFull)
    {
        StillTime time = new();
        MemoryBench bench = new(time);
        FullWorkshop workshop = new(bench, NewId, DemoFile.Read);
        if (isFull)
        {
            await workshop.FillAsync();
            await workshop.AddPastWorkAsync();
        }

        await using VisitedSide side = new(workshop, bench, time, new("http://localhost"), new ReadForms());
        return (await side.GoAsync("/year")).Html;

        Guid NewId()
        {
            time.GoOn();
            return Guid.CreateVersion7(time.GetUtcNow());
        }
    }
}
