using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Measures;

public class StockTextTests
{
    private static readonly LengthStyle Inches = new(LengthUnit.In);

    public static TheoryData<string, double, int, string> Lines() => new()
    {
        { "2.55", 2.55, 1, "marked" },
        { "2,55 x2 micrometer", 2.55, 2, "micrometer" },
        { "2.55 x 12", 2.55, 12, "marked" },
        { "2.625 Calliper", 2.625, 1, "calliper" },
        { "2.50mm \u00d73 marked", 2.5, 3, "marked" },
        { "0.1 in x2", 2.54, 2, "marked" },
    };

    [Theory]
    [MemberData(nameof(Lines))]
    public void ReadDrawer_ALine_IsShims(string line, double thickness, int count, string by)
    {
        List<JobProblem> problems = [];
        Assert.Equal([new ShimsAtHand(thickness, by, count)], StockText.ReadDrawer(line, LengthStyle.Millimetres, problems));
        Assert.Empty(problems);
    }

    [Theory]
    [InlineData("two of 2.55", "found \"two of 2.55\"")]
    [InlineData("2.55 x99999999999", "found 99999999999 shims")]
    [InlineData("x2", "found \"x2\"")]
    [InlineData("2.55 x2 ruler", "2.55 x2 ruler")]
    public void ReadDrawer_NoShims_NamesTheLineAndWhatToWrite(string line, string found)
    {
        List<JobProblem> problems = [];
        StockText.ReadDrawer($"2.50\n\n{line}", LengthStyle.Millimetres, problems);
        JobProblem problem = Assert.Single(problems);
        Assert.Equal("shims at hand, line 3", problem.Path);
        Assert.Contains(found, problem.Found, StringComparison.Ordinal);
        Assert.NotEmpty(problem.Allowed);
    }

    [Theory]
    [InlineData("1.20 to 3.50 step 0.05 at 8", 1.2, 3.5, 0.05, 8)]
    [InlineData("1,20-3,50 step 0,025 at 6,5", 1.2, 3.5, 0.025, 6.5)]
    [InlineData("1.2 to 3.5 step 0.05", 1.2, 3.5, 0.05, 0)]
    public void ReadBuy_ALine_IsAKit(string line, double from, double to, double step, double price)
    {
        List<JobProblem> problems = [];
        Assert.Equal([new SizesToBuy(from, to, step, price)], StockText.ReadBuy(line, LengthStyle.Millimetres, problems));
        Assert.Empty(problems);
    }

    [Theory]
    [InlineData("1.20 to 3.50")]
    [InlineData("all sizes")]
    [InlineData("1.20 to 3.50 step 0.05 at cost")]
    public void ReadBuy_NoKit_SaysWhatToWrite(string line)
    {
        List<JobProblem> problems = [];
        Assert.Empty(StockText.ReadBuy(line, LengthStyle.Millimetres, problems));
        Assert.Equal("sizes to buy, line 1", Assert.Single(problems).Path);
    }

    [Fact]
    public void Drawer_WrittenAndReadInAnyUnit_IsTheSame()
    {
        ShimsAtHand[] drawer = [new(2.55, "micrometer", 2), new(2.118, "marked", 1), new(1.27, "calliper", 4)];
        SizesToBuy[] buy = [new(1.2, 3.5, 0.025, 6.5), new(2, 3, 0.05, 0)];
        foreach (LengthStyle lengths in new[] { LengthStyle.Millimetres, Inches, new LengthStyle(LengthUnit.Thou) })
        {
            List<JobProblem> problems = [];
            Assert.Equal(drawer, StockText.ReadDrawer(StockText.Drawer(drawer, lengths), lengths, problems));
            Assert.Equal(buy, StockText.ReadBuy(StockText.Buy(buy, lengths), lengths, problems));
            Assert.Empty(problems);
        }
    }

    [Fact]
    public void Read_LineLongerThanASizeIs_IsRefusedAtOnce()
    {
        List<JobProblem> problems = [];
        System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
        Assert.Empty(StockText.ReadBuy(string.Concat(Enumerable.Repeat("1 to ", 5000)) + "step", LengthStyle.Millimetres, problems));
        Assert.Empty(StockText.ReadDrawer("2" + new string(' ', 20_000) + "x", LengthStyle.Millimetres, problems));
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 5);
        Assert.Equal(2, problems.Count);
        Assert.All(problems, p => Assert.Contains("a line has at most 200 characters", p.Allowed, StringComparison.Ordinal));
    }

    [Fact]
    public void Read_MoreWrongLinesThanAnybodyReads_Stops()
    {
        List<JobProblem> problems = [];
        Assert.Empty(StockText.ReadDrawer(string.Concat(Enumerable.Repeat("a shim\n", 10_000)), LengthStyle.Millimetres, problems));
        Assert.Equal(201, problems.Count);
    }
}
