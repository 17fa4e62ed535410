using Shimwright.Bench.Texts;

namespace Shimwright.Bench.Tests.Texts;

public class TextTests
{
    [Theory]
    [InlineData("  Étoile ", "ETOILE")]
    [InlineData("cafe\u0301", "CAFE")]
    [InlineData("Größe", "GROßE")]
    [InlineData("Łódź", "ŁODZ")]
    [InlineData("50%_\\'", "50%_\\'")]
    [InlineData("한글", "한글")]
    public void Of_Text_IsWithoutCaseAndAccents(string text, string folded) => Assert.Equal(folded, SearchText.Of(text));

    [Fact]
    public void Of_LongText_IsCut() => Assert.Equal(PlainText.LongestName, SearchText.Of(new string('x', 500)).Length);

    [Fact]
    public void PlainText_OfAnything_CanBeKeptEverywhere()
    {
        Assert.Equal("ab", PlainText.Of("a\0b"));
        Assert.Equal("a\ufffdb", PlainText.Of("a\ud800b"));
        Assert.Equal("two\nlines é 🔧", PlainText.Of("two\nlines é 🔧"));
        Assert.True(PlainText.CanNameADevice("Sam's phone é 🔧"));
        Assert.False(PlainText.CanNameADevice("half \udc00"));
    }
}
