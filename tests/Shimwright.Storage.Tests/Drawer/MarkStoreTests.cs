using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Drawer;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.Bench;

namespace Shimwright.Storage.Tests.Drawer;

public class MarkStoreTests
{
    [Theory]
    [OnEachDatabase]
    public async Task ListAsync_JobsOfEveryKind_GivesThoseThatKnowBothTheNewestFirst(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        Assert.Empty(await database.Bench.Marks.ListAsync(Cancel));
        Guid first = await database.Bench.StartJobAsync(await database.Bench.AddEngineAsync("First"));
        await database.Bench.SaveAsync(first, new ThicknessFound("I1", 2.5, "marked"), new ThicknessFound("I1", 2.494, "micrometer"), new ThicknessFound("E1", 2.5, "marked"));
        await database.Bench.MeasureAsync(await database.Bench.StartJobAsync(await database.Bench.AddEngineAsync("Measured only")));
        database.Time.Pass(TimeSpan.FromDays(1));
        Guid second = await database.Bench.StartJobAsync(await database.Bench.AddEngineAsync("Second"));
        await database.Bench.SaveAsync(second, new ThicknessFound("E2", 2.75, "micrometer"));
        await database.Bench.SaveAsync(second, new ThicknessFound("E2", 2.75, "marked"), new ThicknessFound("I1", 2.6, "marked"));
        IReadOnlyList<JobMark> marks = await database.Another().Marks.ListAsync(Cancel);
        Assert.Equal([(second, "Second", new MarkedShim("E2", 2.75, 2.75)), (first, "First", new MarkedShim("I1", 2.5, 2.494))], marks.Select(m => (m.Job, m.Engine, m.Shim)));
        await database.Bench.SaveAsync(second, new Undone((await database.Bench.FindJobAsync(second)).Sheet.Entries[^1].Action));
        Assert.Equal([first], (await database.Bench.Marks.ListAsync(Cancel)).Select(m => m.Job));
    }
}
