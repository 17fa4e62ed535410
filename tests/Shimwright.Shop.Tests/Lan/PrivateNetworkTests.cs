using System.Net;
using Shimwright.Web.Lan;

namespace Shimwright.Shop.Tests.Lan;

public class PrivateNetworkTests
{
    /// <summary>The first and last address of each block, and those beside it: RFC 1918 section 3, RFC 3927 section 2.1, RFC 4193 section 3.1, RFC 4291 section 2.5.6.</summary>
    [Theory]
    [InlineData("10.0.0.0", true)]
    [InlineData("10.255.255.255", true)]
    [InlineData("9.255.255.255", false)]
    [InlineData("11.0.0.0", false)]
    [InlineData("172.16.0.0", true)]
    [InlineData("172.31.255.255", true)]
    [InlineData("172.15.255.255", false)]
    [InlineData("172.32.0.0", false)]
    [InlineData("192.168.0.0", true)]
    [InlineData("192.168.255.255", true)]
    [InlineData("192.167.255.255", false)]
    [InlineData("192.169.0.0", false)]
    [InlineData("169.254.0.1", true)]
    [InlineData("127.0.0.1", true)]
    [InlineData("fc00::1", true)]
    [InlineData("fdff::1", true)]
    [InlineData("fe00::1", false)]
    [InlineData("fe80::1", true)]
    [InlineData("febf::1", true)]
    [InlineData("fe80::1%2", true)]
    [InlineData("fec0::1", false)]
    [InlineData("::1", true)]
    [InlineData("2001:db8::1", false)]
    [InlineData("::ffff:192.168.1.5", true)]
    [InlineData("::ffff:203.0.113.5", false)]
    [InlineData("0.0.0.0", false)]
    public void Has_TheEdgesOfEachBlock_AreAsPublished(string address, bool isPrivate) => Assert.Equal(isPrivate, PrivateNetwork.Has(IPAddress.Parse(address)));

    [Theory]
    [InlineData("192.168.1.5", "192.168.1.20", null, true)]
    [InlineData("192.168.1.5", "203.0.113.9", null, false)]
    [InlineData("203.0.113.5", "192.168.1.20", null, false)]
    [InlineData("203.0.113.5", "203.0.113.9", "203.0.113.9", true)]
    [InlineData("192.168.1.5", "::ffff:192.168.1.9", "192.168.1.9", true)]
    [InlineData("192.168.1.5", "192.168.1.20", "192.168.1.9", false)]
    [InlineData("127.0.0.1", "127.0.0.1", "192.168.1.9", true)]
    public void MayCall_FromElsewhere_IsHungUpOn(string here, string caller, string? only, bool mayCall) =>
        Assert.Equal(mayCall, PrivateCallers.MayCall(IPAddress.Parse(here), IPAddress.Parse(caller), only is null ? null : IPAddress.Parse(only)));

    [Fact]
    public void MayCall_NobodyKnowsFromWhere_IsHungUpOn() => Assert.False(PrivateCallers.MayCall(null, null, null));
}
