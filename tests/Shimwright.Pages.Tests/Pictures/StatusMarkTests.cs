using Bunit;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Tests.Pictures;

public class StatusMarkTests
{
    [Theory]
    [InlineData("in", "in band", "circle")]
    [InlineData("out", "out of band", "path")]
    [InlineData("unsettled", "not settled", "circle")]
    public void Render_AStatus_IsAShapeAndAWord(string status, string word, string shape)
    {
        using var context = new BunitContext();
        IRenderedComponent<StatusMark> mark = context.Render<StatusMark>(p => p.Add(m => m.Status, status));
        Assert.Contains(word, mark.Find(".status").TextContent, StringComparison.Ordinal);
        Assert.NotNull(mark.Find($"svg {shape}"));
    }
}
