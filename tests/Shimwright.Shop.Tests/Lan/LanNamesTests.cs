using System.Net;
using Microsoft.AspNetCore.HostFiltering;
using Shimwright.Web.Lan;

namespace Shimwright.Shop.Tests.Lan;

public class LanNamesTests
{
    [Fact]
    public async Task LookAsync_TheRouterGivesAnotherAddress_IsFollowedAndTold()
    {
        IReadOnlyList<IPAddress> now = [IPAddress.Parse("192.168.1.20")];
        using LanNames names = new([], () => now, "no-such-machine-here");
        await names.LookAsync(TestContext.Current.CancellationToken);
        Assert.Equal("192.168.1.20", names.Best);
        Assert.True(names.IsBestAnAddress);
        bool wasTold = false;
        names.GetChangeToken().RegisterChangeCallback(_ => wasTold = true, null);
        Assert.False(await names.LookAsync(TestContext.Current.CancellationToken));
        Assert.False(wasTold);
        now = [IPAddress.Parse("192.168.1.33"), IPAddress.Parse("fd00::2")];
        Assert.True(await names.LookAsync(TestContext.Current.CancellationToken));
        Assert.True(wasTold);
        HostFilteringOptions hosts = new();
        names.Configure(hosts);
        Assert.Contains("192.168.1.33", hosts.AllowedHosts);
        Assert.Contains("[fd00::2]", hosts.AllowedHosts);
        Assert.DoesNotContain("192.168.1.20", hosts.AllowedHosts);
        Assert.DoesNotContain("*", hosts.AllowedHosts);
    }

    [Fact]
    public async Task Best_ANameThatWasGiven_IsTaken()
    {
        using LanNames names = new(["bench.example.org"], () => [IPAddress.Parse("192.168.1.20")], "x");
        await names.LookAsync(TestContext.Current.CancellationToken);
        Assert.Equal("bench.example.org", names.Best);
        Assert.Contains("bench.example.org", names.All);
    }

    [Theory]
    [InlineData("192.168.1.20", "https://192.168.1.20:7340/enter")]
    [InlineData("fd00::2", "https://[fd00::2]:7340/enter")]
    [InlineData("lift.local", "https://lift.local:7340/enter")]
    public void Link_AnAddress_IsOneThatABrowserTakes(string host, string link)
    {
        Assert.Equal(link, LanNames.Link(host, 7340, "/enter"));
        Assert.Equal(7340, new Uri(link).Port);
    }
}
