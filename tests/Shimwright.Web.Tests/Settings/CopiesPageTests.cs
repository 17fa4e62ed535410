using System.IO.Compression;
using System.Net;
using Microsoft.Extensions.Logging.Abstractions;
using Shimwright.Bench.Copies;
using Shimwright.Jobs.Settings;
using Shimwright.Storage;
using Shimwright.Storage.Copies;
using Shimwright.Web.Hosting;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Settings;

public sealed class CopiesPageTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-kept-").FullName;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Make_ACopy_IsListedWithItsAgeAndIsTheBench()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await DemoEngine.AddAsync(bench);
        Assert.Contains("There is no copy yet.", (await FetchedPage.GetAsync(client, "/settings/copies")).Text, StringComparison.Ordinal);
        FetchedPage saved = await (await FormPost.OnAsync(client, "/settings/copies", "keep")).With("Keep.Folder", _folder).With("Keep.Kept", "2").SubmitAsync();
        Assert.Contains("Saved.", saved.Text, StringComparison.Ordinal);
        FetchedPage made = await FormPost.On(client, saved, "make").SubmitAsync();
        Assert.Contains("The copy is made and checked.", made.Text, StringComparison.Ordinal);
        Assert.Contains("The newest copy is a minute old.", made.Text, StringComparison.Ordinal);
        string copy = Assert.Single(Directory.GetFiles(_folder));
        Assert.Contains(Path.GetFileName(copy), made.Text, StringComparison.Ordinal);
        Assert.Equal(1, (await BenchDatabase.At(copy, TimeProvider.System).CheckAsync(cancel: Cancel)).Engines);
    }

    [Theory]
    [InlineData("here", "14", "a whole path is needed")]
    [InlineData("", "0", "allowed are 1 to 365")]
    [InlineData("", "many", "allowed are 1 to 365")]
    public async Task Save_WhatIsNoFolderOrCount_IsRefusedAndStaysInTheFields(string folder, string kept, string words)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        FetchedPage page = await (await FormPost.OnAsync(client, "/settings/copies", "keep")).With("Keep.Folder", folder).With("Keep.Kept", kept).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains(words, page.Text, StringComparison.Ordinal);
        Assert.Equal(kept, page.Document.QuerySelector("[name='Keep.Kept']")!.GetAttribute("value"));
        Assert.Equal(new BenchSettings().ToJson(), (await bench.Database.Settings.CurrentAsync(Cancel)).Settings.ToJson());
    }

    [Fact]
    public async Task Make_WhereNothingCanBeWritten_SaysWhyAndKeepsSayingIt()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        string file = Path.Combine(_folder, "a file");
        await File.WriteAllTextAsync(file, "", Cancel);
        await bench.Database.Settings.SaveAsync(new BenchSettings { CopyFolder = file }, 0, "phone", Cancel);
        FetchedPage page = await (await FormPost.OnAsync(client, "/settings/copies", "make")).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, page.Status);
        Assert.Contains("The last copy could not be made", (await FetchedPage.GetAsync(client, "/settings/copies")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Archive_OfABench_IsTakenInByANewOneAndByNoOther()
    {
        await using RunningBench bench = await RunningBench.StartAsync(), other = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient(), toOther = other.NewClient();
        await DemoEngine.AddAsync(bench);
        byte[] archive = await client.GetByteArrayAsync(new Uri("/settings/copies/bench.zip", UriKind.Relative), Cancel);
        using (ZipArchive zip = new(new MemoryStream(archive)))
        {
            Assert.NotNull(zip.GetEntry("manifest.json"));
        }

        FormPost stale = (await FormPost.OnAsync(toOther, "/settings/copies", "archive")).WithFile("Archive.File", "a.zip", archive);
        FetchedPage cut = await (await FormPost.OnAsync(toOther, "/settings/copies", "archive")).WithFile("Archive.File", "a.zip", archive[..^30]).SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, cut.Status);
        Assert.Contains("The archive is imported.", (await (await FormPost.OnAsync(toOther, "/settings/copies", "archive")).WithFile("Archive.File", "a.zip", archive).SubmitAsync()).Text, StringComparison.Ordinal);
        Assert.Equal(1, await other.Database.Engines.CountAsync(null, Cancel));
        Assert.Equal(HttpStatusCode.BadRequest, (await stale.SubmitAsync()).Status);
    }

    [Fact]
    public async Task Remove_AnEngineByItsName_IsGoneWithItsJobs()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench);
        string name = (await bench.Database.Engines.FindAsync(engine, Cancel))!.Name;
        await (await FormPost.OnAsync(client, $"/engines/{engine}", "start")).With("Start.Clock", "1").SubmitAsync();
        Assert.Equal("application/zip", (await client.GetAsync(new Uri($"/engines/{engine}/engine.zip", UriKind.Relative), Cancel)).Content.Headers.ContentType!.MediaType);
        FetchedPage refused = await (await FormPost.OnAsync(client, $"/engines/{engine}/remove", "remove")).With("Remove.Name", "another").SubmitAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("Nothing was removed", refused.Text, StringComparison.Ordinal);
        FetchedPage removed = await FormPost.On(client, refused, "remove").With("Remove.Name", name).SubmitAsync();
        Assert.Contains("The engine and its jobs are removed.", removed.Text, StringComparison.Ordinal);
        Assert.True((await bench.Database.Copies.ContentsAsync(Cancel)).IsEmpty);
        Assert.Equal(HttpStatusCode.NotFound, (await FetchedPage.GetAsync(client, $"/engines/{engine}/remove")).Status);
    }

    /// <summary>A copy a day of a bench that has something in it; the oldest goes.</summary>
    [Fact]
    public async Task Keeper_OverAWeek_MakesACopyADayAndKeepsTheNewest()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        Days time = new();
        BenchDatabase database = BenchDatabase.At(bench.Database.File!, time);
        using CopyKeeper keeper = new(database, time, NullLogger<CopyKeeper>.Instance);
        await database.Settings.SaveAsync(new BenchSettings { CopyFolder = _folder, CopiesKept = 3 }, 0, "phone", Cancel);
        await DemoEngine.AddAsync(bench);
        int made = 0;
        for (int hour = 0; hour < 7 * 24; hour += 5)
        {
            made += await keeper.LookAsync(Cancel) ? 1 : 0;
            time.Pass(TimeSpan.FromHours(5));
        }

        // Looked at every five hours, a copy is 25 hours old when the next is made.
        Assert.Equal(7, made);
        IReadOnlyList<KeptCopy> kept = (await database.Copies.StateAsync(Cancel)).Copies;
        Assert.Equal(3, kept.Count);
        Assert.Equal(3, Directory.GetFiles(_folder).Length);
        SoundReport report = await BenchDatabase.At(Path.Combine(_folder, kept[0].Name), time).CheckAsync(cancel: Cancel);
        Assert.Equal((true, 1), (report.IsSound, report.Engines));
    }

    private sealed class Days : TimeProvider
    {
        private DateTimeOffset _now = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => _now;

        public void Pass(TimeSpan span) => _now += span;
    }
}
