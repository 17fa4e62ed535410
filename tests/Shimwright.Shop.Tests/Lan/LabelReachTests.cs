using Shimwright.Bench.Devices;
using Shimwright.Testing.Benches;

namespace Shimwright.Shop.Tests.Lan;

public class LabelReachTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>Labels are printed at the machine itself, where the bench is asked for as localhost: a phone that scans one is somewhere else.</summary>
    [Fact]
    public async Task Labels_OfAShop_LeadToTheAddressByWhichPhonesReachIt()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await using ShopBench shop = await ShopBench.StartAsync(test.Bench, hosts: ["bench.example.org"]);
        using HttpClient client = await shop.LetInAsync(DeviceRole.Mechanic);
        await test.Bench.Drawer.AddAsync(new(Shimwright.Bench.Drawer.ShimSize.Of(9.48, 2.4, "marked"), 2), new(Guid.NewGuid(), "desk"), Cancel);
        Assert.Equal("localhost", shop.Address.Host);
        string page = await client.GetStringAsync(new Uri("/drawer/labels", UriKind.Relative), Cancel);
        Assert.Contains($"<strong>https://bench.example.org:{shop.Address.Port}/", page, StringComparison.Ordinal);
        Assert.Contains("It opens on any device that reaches the bench.", page, StringComparison.Ordinal);
    }
}
