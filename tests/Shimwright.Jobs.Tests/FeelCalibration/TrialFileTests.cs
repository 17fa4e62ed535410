using System.Text;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Tables;

namespace Shimwright.Jobs.Tests.FeelCalibration;

public class TrialFileTests
{
    private const string Heading = "gap,blade,leaves,feel\n";

    [Fact]
    public void Read_PlainFile_GivesTheTrialsInOrder()
    {
        IReadOnlyList<FeelTrial> trials = Takes(Heading + "0.15,0.13,2,light\n0.10,0.13,,no\n");

        Assert.Equal([new FeelTrial(0.15, new BladeTrial(0.13, Feel.Light, 2)), new FeelTrial(0.10, new BladeTrial(0.13, Feel.No))], trials);
    }

    /// <summary>The same two trials as programs of several countries write them.</summary>
    [Theory]
    [InlineData("gap,blade,feel\n0.15,0.13,light\n0.1,0.13,no")]
    [InlineData("gap;blade;feel\n0,15;0,13;light\n0,1;0,13;no\n")]
    [InlineData("gap;blade;feel\r\n0.15;0.13;light\r\n0.1;0.13;no\r\n")]
    [InlineData("gap\tblade\tfeel\n0,15\t0,13\tlight\n0,1\t0.13\tno\n")]
    [InlineData("gap,blade,feel\n\"0,15\",\"0,13\",light\n\"0,1\",0.13,no\n")]
    [InlineData("\uFEFFGap, Blade ,FEEL\n 0.15 ,0.13, Light\n\n0.1,0.13,NO\n,,\n")]
    [InlineData("feel,gap,leaves,blade\nlight,0.15,1,0.13\nno,1e-1,1,0.13\n")]
    [InlineData("gap,blade,feel,\n0.15 mm,0.13,light,\n100 µm,0.13,no,\n")]
    public void Read_OtherWaysOfWriting_AreTheSameTrials(string text) => Assert.Equal(
        [new FeelTrial(0.15, new BladeTrial(0.13, Feel.Light)), new FeelTrial(0.1, new BladeTrial(0.13, Feel.No))],
        Takes(text).Select(t => new FeelTrial(Math.Round(t.Gap, 9), t.Trial)));

    [Theory]
    [InlineData("15,0.13,1,light", "line 2, gap: found \"15\"; allowed is above 0 up to 3 mm; 0.15 meant?")]
    [InlineData("0,0.13,1,light", "line 2, gap: found \"0\"; allowed is above 0 up to 3 mm")]
    [InlineData("NaN,0.13,1,light", "line 2, gap: found \"NaN\"; allowed is above 0 up to 3 mm")]
    [InlineData("1.5.1,0.13,1,light", "line 2, gap: found \"1.5.1\"; allowed is above 0 up to 3 mm")]
    [InlineData("\"1,234.5\",0.13,1,light", "line 2, gap: found \"1,234.5\"; allowed is above 0 up to 3 mm")]
    [InlineData("0.15,13,1,light", "line 2, blade: found \"13\"; allowed is above 0 up to 2 mm; 0.13 meant?")]
    [InlineData("0.15,0.13,11,light", "line 2, leaves: found \"11\"; allowed is a whole number from 1 to 10")]
    [InlineData("0.15,0.13,1.5,light", "line 2, leaves: found \"1.5\"; allowed is a whole number from 1 to 10")]
    [InlineData("0.15,0.13,1,snug", "line 2, feel: found \"snug\"; allowed is no, firm, light, loose")]
    [InlineData("0.15,0.13,1", "line 2, feel: nothing was entered; every line needs this column")]
    [InlineData(",0.13,1,light", "line 2, gap: nothing was entered; every line needs this column")]
    [InlineData("0.75,0.13,1,light", "line 2, gap: found \"0.75\"; allowed is within 0.5 mm of the blade, 0.13")]
    [InlineData("0,15,0,13,1,light", "line 2: found 6 columns under a heading of 4; where numbers have decimal commas, put semicolons between the columns")]
    [InlineData("0.15,0.13,1,\"li\u0007\nght\"", "line 3, feel: found \"li\\u0007\\u000aght\"; allowed is no, firm, light, loose")]
    public void Read_BadLine_IsNamedWithWhatIsAllowed(string line, string words) =>
        Assert.Equal(words, Assert.Single(Refuses(Heading + line + "\n")).ToString());

    [Fact]
    public void Read_ManyBadLines_AreNamedAllAtOnceInOrder()
    {
        IReadOnlyList<TableProblem> problems = Refuses(Heading + "x,0.13,1,light\n0.15,0.13,1,light\n\n0.15,y,0,z\n0,15,0,13,1,no\n");

        Assert.Equal([(2, "gap"), (5, "blade"), (5, "leaves"), (5, "feel"), (6, "")], problems.Select(p => (p.Line, p.Column)));
    }

    [Theory]
    [InlineData("", "the file: nothing stands in it")]
    [InlineData("\n\n", "the file: nothing stands in it")]
    [InlineData("0.15,0.13,light\n", "line 1: there is no column \"gap\"")]
    [InlineData("gap,blade,feel,note\n", "line 1: found the column \"note\"")]
    [InlineData("gap,blade,feel,gap\n", "line 1: the column \"gap\" appears twice")]
    [InlineData("gap,blade\n", "line 1: there is no column \"feel\"")]
    public void Read_WrongHeading_SaysWhichColumnsThereAre(string text, string words) =>
        Assert.Contains(Refuses(text), p => p.ToString().StartsWith(words, StringComparison.Ordinal));

    [Fact]
    public void Read_NoText_SaysSo() =>
        Assert.Contains("UTF-8", Assert.Single(TrialFile.Read([0x67, 0xff, 0xfe]).Problems).Allowed, StringComparison.Ordinal);

    [Fact]
    public void Read_TooManyTrials_SaysHowManyAreAllowed()
    {
        string text = Heading + string.Concat(Enumerable.Repeat("0.15,0.13,1,light\n", 5001));
        Assert.Contains("allowed are 5000", Assert.Single(Refuses(text)).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_QuoteThatNeverEnds_IsAProblemAndNoFault() =>
        Assert.NotEmpty(Refuses(Heading + "0.15,\"0.13,1,light\n0.15,0.13,1,light\n"));

    private static IReadOnlyList<FeelTrial> Takes(string text)
    {
        TrialReading reading = TrialFile.Read(Encoding.UTF8.GetBytes(text));
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        return Assert.IsAssignableFrom<IReadOnlyList<FeelTrial>>(reading.Trials);
    }

    private static IReadOnlyList<TableProblem> Refuses(string text)
    {
        TrialReading reading = TrialFile.Read(Encoding.UTF8.GetBytes(text));
        Assert.Null(reading.Trials);
        Assert.All(reading.Problems, p => Assert.DoesNotContain(p.ToString(), char.IsControl));
        return reading.Problems;
    }
}
