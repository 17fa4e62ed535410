namespace Shimwright.Reference;

public class Placeholder
{
    [Xunit.Fact]
    public void Nothing() => Xunit.Assert.True(true);
}
