using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Jobs.Readings;

namespace Shimwright.Pages.Tests.Jobs.Readings;

public class ReadingWordsTests
{
    [Theory]
    [InlineData(1, "over 99.9 %")]
    [InlineData(0.9995, "over 99.9 %")]
    [InlineData(0.998, "99.8 %")]
    [InlineData(0.97, "97 %")]
    [InlineData(0.5, "50 %")]
    [InlineData(0.004, "0.4 %")]
    [InlineData(0, "under 0.1 %")]
    public void Percent_AChance_IsNeverQuiteNothingOrAll(double chance, string words) => Assert.Equal(words.Replace(' ', '\u00a0'), ReadingWords.Percent(chance).Replace(' ', '\u00a0'));

    [Fact]
    public void Of_AnEstimate_IsASentence() => Assert.Equal(
        "0.142 mm, between 0.131 and 0.153. 97\u00a0% chance in band.",
        ReadingWords.Of(new EstimateRow(0.142, 0.006, 0.131, 0.153, 0.97, "in"), LengthStyle.Millimetres));

    [Fact]
    public void Of_AProblemOfAFile_NamesTheField() => Assert.Equal(
        ["blade", "uncertainty", "temperature"],
        ReadingWords.Of([new("$.check.readings[0].trials[2].blade", "", ""), new("$.check.readings[1].u", "", ""), new JobProblem("$.check.temperatureC", "", "")]).Select(p => p.Path));
}
