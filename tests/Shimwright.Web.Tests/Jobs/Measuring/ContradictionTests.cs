using System.Net;
using AngleSharp.Dom;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Jobs.Measuring;

public class ContradictionTests
{
    private const string Single = "01-flood-pump.json";

    public static TheoryData<ReadingFact, ReadingFact, string> Pairs() => new()
    {
        { new BladeTried(SheetPart.Check, "I1", 0.20, 1, "loose"), new BladeTried(SheetPart.Check, "I1", 0.18, 1, "no"), "blade 0.20 mm, loose" },
        { new BucketTurned(SheetPart.Check, "I1", true), new BucketTurned(SheetPart.Check, "I1", false), "bucket turns by hand" },
        { new BladeTried(SheetPart.Check, "I1", 0.20, 1, "light"), new BucketTurned(SheetPart.Check, "I1", false), "blade 0.20 mm, light" },
        { new BucketTurned(SheetPart.Check, "I1", false), new BladeTried(SheetPart.Check, "I1", 0.20, 1, "light"), "bucket does not turn by hand" },
    };

    /// <summary>One tap beside the caution takes the older of the two back, wherever the page is, and goes to that valve.</summary>
    [Theory]
    [MemberData(nameof(Pairs))]
    public async Task TakeBack_BesideACaution_TakesTheOlderReadingBack(ReadingFact older, ReadingFact newer, string said)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await StartAsync(bench, f => f is ThicknessFound, new BladeTried(SheetPart.Check, "E2", 0.25, 1, "firm"), older, newer);
        FetchedPage page = await job.PageAsync("measure?valve=E2");
        IElement tap = Taps(page).Single();
        Assert.Equal($"Take back the older: {said}", tap.TextContent.Trim());
        FetchedPage after = await FormPost.On(job.Client, page, "older").With("Older.Entry", tap.GetAttribute("value")).SubmitAsync();
        Assert.Equal($"/jobs/{job.Id}/measure?valve=I1", after.Address.PathAndQuery);
        Assert.Empty(Taps(after));
        Assert.Contains($"Put back: {said}", after.Text, StringComparison.Ordinal);
        Assert.Equal([newer], (await job.StoredAsync()).Sheet.Readings(SheetPart.Check, "I1").Select(e => e.Fact));
    }

    [Fact]
    public async Task TakeBack_AtTheRecheck_LeavesTheCheckAlone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await StartAsync(bench, f => f is not ReadingFact { Part: SheetPart.Recheck },
            new BladeTried(SheetPart.Recheck, "I1", 0.20, 1, "loose"), new BladeTried(SheetPart.Recheck, "I1", 0.18, 1, "no"));
        FetchedPage page = await job.PageAsync("recheck?valve=I2");
        int before = (await job.StoredAsync()).Sheet.InForce.Count;
        FetchedPage after = await FormPost.On(job.Client, page, "older").With("Older.Entry", Taps(page).Single().GetAttribute("value")).SubmitAsync();
        Assert.Equal($"/jobs/{job.Id}/recheck?valve=I1", after.Address.PathAndQuery);
        Assert.Equal(before - 1, (await job.StoredAsync()).Sheet.InForce.Count);
        Assert.Equal(0.18, ((BladeTried)(await job.StoredAsync()).Sheet.LastReading(SheetPart.Recheck, "I1")!.Fact).Blade);
    }

    [Fact]
    public async Task TakeBack_TwiceFromTwoDevices_SaysThatItIsGoneAlready()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using DemoJob job = await StartAsync(bench, f => f is ThicknessFound,
            new BladeTried(SheetPart.Check, "I1", 0.20, 1, "loose"), new BladeTried(SheetPart.Check, "I1", 0.18, 1, "no"));
        FetchedPage page = await job.PageAsync("measure?valve=I1");
        string entry = Taps(page).Single().GetAttribute("value")!;
        await FormPost.On(job.Client, page, "undo").With("Undo.Entry", entry).SubmitAsync();
        FetchedPage late = await FormPost.On(job.Client, page, "older").With("Older.Entry", entry).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, late.Status);
        Assert.Contains("there is no such reading any more", late.Text, StringComparison.Ordinal);
    }

    private static async Task<DemoJob> StartAsync(RunningBench bench, Func<JobFact, bool> which, params ReadingFact[] felt)
    {
        DemoJob job = await DemoJob.StartAsync(bench, Single, which);
        AddResult added = await bench.Database.Jobs.AddAsync(job.Id, new Addition(Guid.NewGuid(), "d", 1000, felt), TestContext.Current.CancellationToken);
        Assert.True(added.IsSaved, string.Join("; ", added.Problems));
        return job;
    }

    private static IEnumerable<IElement> Taps(FetchedPage page) => page.Document.QuerySelectorAll("section[aria-label=Cautions] button");
}
