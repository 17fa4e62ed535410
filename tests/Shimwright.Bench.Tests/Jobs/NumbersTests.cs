using System.IO.Compression;
using System.Text.Json.Nodes;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Jobs;

/// <summary>Jobs are counted, and no number is given twice.</summary>
public class NumbersTests
{
    [Theory]
    [OnEachBench]
    public async Task StartAsync_JobAfterJob_CountsThemAndNeverGivesANumberAgain(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid goes = await test.Bench.AddEngineAsync("Flood pump 9"), stays = await test.Bench.AddEngineAsync();
        Guid first = await test.Bench.StartJobAsync(stays), action = Guid.NewGuid();
        await test.Bench.StartJobAsync(goes);
        Assert.Empty(await test.Bench.Engines.RemoveAsync(goes, "Flood pump 9", Cancel));
        Guid[] same = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => test.Another().Jobs.StartAsync(stays, Setup(), [], action, "phone", Cancel), Cancel)));
        Guid[] others = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => test.Another().Jobs.StartAsync(stays, Setup(), [], Guid.NewGuid(), "phone", Cancel), Cancel)));
        int[] numbers = [.. (await test.Bench.Jobs.OfEngineAsync(stays, Cancel)).Select(j => j.Number).Order()];
        Assert.Equal(6, numbers.Distinct().Count());
        Assert.Equal(1, numbers[0]);
        Assert.DoesNotContain(2, numbers);
        Assert.Single(same.Distinct());
        Assert.Equal(4, others.Distinct().Count());
        Assert.Equal("1", (await test.Bench.FindJobAsync(first)).Number);
        Assert.Empty(ContentRules.ProblemsOf(await test.Bench.Copies.ContentsAsync(Cancel)));
    }

    [Theory]
    [OnEachBench]
    public async Task Number_SetByHand_StandsUntilItIsBlankAgainThoughTheJobIsClosed(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        Guid job = await test.Bench.WorkedJobAsync();
        await test.Bench.SaveAsync(job, new JobClosed(118, "", "", ""));
        await test.Bench.SaveAsync(job, new JobNumbered("W-204/26"));
        Assert.Equal("W-204/26", (await test.Another().FindJobAsync(job)).Number);
        Assert.NotNull((await test.Bench.FindJobAsync(job)).Record);
        AddResult wrong = await test.Bench.SendAsync(job, "phone", int.MaxValue, new JobNumbered(new string('9', 41)));
        Assert.Equal(AddOutcome.Refused, wrong.Outcome);
        await test.Bench.SaveAsync(job, new JobNumbered(""));
        Assert.Equal("1", (await test.Bench.FindJobAsync(job)).Number);
    }

    /// <summary>An archive from before jobs were counted has no numbers, and neither counts nor pictures.</summary>
    [Fact]
    public async Task Read_ArchiveOfTheFirstEdition_CountsItsJobsInTheirOrder()
    {
        await using TestBench test = await TestBench.OfAsync(BenchKind.Memory);
        List<Guid> jobs = [];
        for (int n = 0; n < 3; n++)
        {
            jobs.Add(await test.Bench.StartJobAsync());
            test.Time.Pass(TimeSpan.FromHours(1));
        }

        BenchContents now = await test.Bench.Copies.ContentsAsync(Cancel);
        using MemoryStream archive = new();
        BenchArchive.Write(now with { Jobs = [.. now.Jobs.Select(j => j with { Number = 0 })], Counts = [] }, DateTime.UnixEpoch, archive);
        using (ZipArchive zip = new(archive, ZipArchiveMode.Update, leaveOpen: true))
        {
            zip.GetEntry("counts.jsonl")!.Delete();
            zip.GetEntry("pictures.jsonl")!.Delete();
            ZipArchiveEntry entry = zip.GetEntry("manifest.json")!;
            JsonNode manifest;
            using (Stream stream = entry.Open())
            {
                manifest = JsonNode.Parse(stream)!;
            }

            manifest["edition"] = 1;
            manifest["files"] = new JsonArray([.. manifest["files"]!.AsArray().Where(f => (string)f!["name"]! is not ("counts.jsonl" or "pictures.jsonl")).Select(f => f!.DeepClone())]);
            entry.Delete();
            using Stream written = zip.CreateEntry("manifest.json").Open();
            System.Text.Json.JsonSerializer.Serialize(written, manifest);
        }

        ReadArchive read = BenchArchive.Read(archive);
        Assert.Empty(read.Problems);
        Assert.Equal([1, 2, 3], jobs.Select(id => read.Contents!.Jobs.Single(j => j.Id == id).Number));
    }
}
