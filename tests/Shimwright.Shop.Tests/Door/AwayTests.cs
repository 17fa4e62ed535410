using System.Net;
using Microsoft.Data.Sqlite;
using Shimwright.Bench.Devices;
using Shimwright.Testing.Benches;

namespace Shimwright.Shop.Tests.Door;

public class AwayTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>Who asks stands in the database too: the page that says it is away must not ask it.</summary>
    [Fact]
    public async Task Get_DatabaseThatIsAway_IsSaidToADeviceThatIsIn()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench);
        using HttpClient phone = await shop.LetInAsync(DeviceRole.Mechanic);
        Assert.Equal(HttpStatusCode.OK, (await AskAsync(phone, "/engines")).Status);
        SqliteConnection.ClearAllPools();
        File.Move(test.Address, test.Address + ".away");
        for (int left = 50; left > 0 && (await AskAsync(phone, "/engines")).Status == HttpStatusCode.OK; left--)
        {
            // A connection that worked in the background just then still has the file.
            SqliteConnection.ClearAllPools();
            await Task.Delay(100, Cancel);
        }

        foreach (string page in new[] { "/engines", "/", "/settings/devices", "/enter" })
        {
            (HttpStatusCode status, string text) = await AskAsync(phone, page);
            Assert.True(status == HttpStatusCode.ServiceUnavailable, $"{page}: {status}");
            Assert.Contains("The bench&#x27;s database does not answer", text, StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await AskAsync(phone, "/api/v1/engines")).Status);
        Assert.Contains("not ready", (await AskAsync(phone, "/readyz")).Text, StringComparison.Ordinal);
        File.Move(test.Address + ".away", test.Address);
        Assert.Equal(HttpStatusCode.OK, (await AskAsync(phone, "/engines")).Status);
    }

    /// <summary>What a browser or a proxy keeps for a year must carry nobody's token.</summary>
    [Fact]
    public async Task Get_AFileThatIsKept_NeverCarriesAToken()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench, test.Time);
        using HttpClient phone = await shop.LetInAsync(DeviceRole.Mechanic);
        test.Time.Pass(TimeSpan.FromHours(2));
        using HttpResponseMessage style = await phone.GetAsync(new Uri("/app.css", UriKind.Relative), Cancel);
        Assert.Equal(HttpStatusCode.OK, style.StatusCode);
        Assert.False(style.Headers.Contains("Set-Cookie"));
        using HttpResponseMessage page = await phone.GetAsync(new Uri("/engines", UriKind.Relative), Cancel);
        Assert.Contains(page.Headers.GetValues("Set-Cookie"), c => c.StartsWith("__Host-", StringComparison.Ordinal));
        Assert.True(page.Headers.CacheControl?.NoStore);
    }

    private static async Task<(HttpStatusCode Status, string Text)> AskAsync(HttpClient client, string path)
    {
        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancel);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(Cancel));
    }
}
