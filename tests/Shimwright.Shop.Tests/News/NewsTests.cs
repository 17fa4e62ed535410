using System.Net.ServerSentEvents;
using System.Text;
using Shimwright.Bench.Devices;
using Shimwright.Shop.Tests.Door;
using Shimwright.Storage;
using Shimwright.Testing.Benches;

namespace Shimwright.Shop.Tests.News;

public class NewsTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Get_SomebodyElseAdds_IsToldToWhoHasTheJobOpen()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        await ToldAsync(shop, shop, test);
    }

    /// <summary>Each phone is on a server of its own; they share the database.</summary>
    [Fact]
    [Trait("Needs", "PostgreSQL")]
    public async Task Get_SomebodyElseAddsOnAnotherServer_IsToldToo()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Postgres);
        await using ShopBench one = await ShopBench.StartAsync(test.Bench);
        await using ShopBench two = await ShopBench.StartAsync(test.Another());
        await ToldAsync(one, two, test);
    }

    /// <summary>Of several servers one works forecasts out; when it is gone another does.</summary>
    [Theory]
    [OnEachDatabase]
    public async Task TakeForecastsAsync_BySeveralServers_OneHasTheTurn(DatabaseKind kind)
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(kind);
        BenchDatabase other = test.Another();
        IAsyncDisposable? mine = await test.Bench.TakeForecastsAsync(Cancel);
        Assert.NotNull(mine);
        IAsyncDisposable? theirs = await other.TakeForecastsAsync(Cancel);
        Assert.Equal(kind == DatabaseKind.Postgres, theirs is null);
        if (theirs is not null)
        {
            await theirs.DisposeAsync();
        }

        await mine.DisposeAsync();
        theirs = await other.TakeForecastsAsync(Cancel);
        Assert.NotNull(theirs);
        await theirs.DisposeAsync();
    }

    private static async Task ToldAsync(ShopBench one, ShopBench two, TestDatabase test)
    {
        using HttpClient watcher = await one.LetInAsync(DeviceRole.Reader, "Ana Quill");
        using HttpClient worker = await two.LetInAsync(DeviceRole.Mechanic, "Bo Tarn");
        Guid job = await EnterTests.StartAsync(worker);
        int last = (await test.Bench.Jobs.FindAsync(job, Cancel))!.Sheet.Last;
        using CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        patience.CancelAfter(TimeSpan.FromSeconds(60));
        await using Stream stream = await watcher.GetStreamAsync(new Uri($"/jobs/{job}/news", UriKind.Relative), patience.Token);
        await using IAsyncEnumerator<SseItem<string>> events = SseParser.Create(stream).EnumerateAsync(patience.Token).GetAsyncEnumerator(patience.Token);
        Assert.True(await events.MoveNextAsync());
        Assert.Equal(("added", last), (events.Current.EventType, int.Parse(events.Current.Data, System.Globalization.CultureInfo.InvariantCulture)));
        // The other server's ear is open by now or soon; what is said before it is told when it opens.
        using StringContent note = new($$"""{"action":"{{Guid.NewGuid()}}","seen":0,"facts":[{"fact":"note","text":"the third one sticks"}]}""", Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await worker.PostAsync(new Uri($"/api/v1/jobs/{job}/facts", UriKind.Relative), note, Cancel);
        answer.EnsureSuccessStatusCode();
        do
        {
            Assert.True(await events.MoveNextAsync());
        }
        while (events.Current.EventType != "added" || int.Parse(events.Current.Data, System.Globalization.CultureInfo.InvariantCulture) == last);
        Assert.Equal(last + 1, int.Parse(events.Current.Data, System.Globalization.CultureInfo.InvariantCulture));
    }
}
