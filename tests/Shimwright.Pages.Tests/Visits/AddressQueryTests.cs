using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Tests.Visits;

public sealed class AddressQueryTests
{
    [Theory]
    [InlineData("http://bench/engines/new?name=Loaner+no.%203", "Loaner no. 3")]
    [InlineData("http://bench/engines/new?at=limits&NAME=x", "x")]
    [InlineData("http://bench/engines/new?name=a&name=b%2Bc", "a,b+c")]
    [InlineData("http://bench/engines/new?name=a%3Db%26c=d", "a=b&c=d")]
    [InlineData("http://bench/engines/new?name", "")]
    [InlineData("http://bench/engines/new?name=&at=limits#name=y", "")]
    [InlineData("http://bench/engines/new?names=a", null)]
    [InlineData("http://bench/engines/new#?name=a", null)]
    [InlineData("http://bench/engines/new", null)]
    public void Query_OfAnAddress_IsReadAsItWasTyped(string address, string? name) => Assert.Equal(name, new AddressQuery(address)["name"]);
}
