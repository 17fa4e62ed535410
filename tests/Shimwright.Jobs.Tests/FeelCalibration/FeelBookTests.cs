using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.FeelCalibration;

public class FeelBookTests
{
    private static readonly TrialMade One = new(0.195, 0.2, 1, "firm");
    private static readonly TrialMade Other = new(0.31, 0.3, 2, "loose");

    public static TheoryData<FeelEntry> OfEveryKind() =>
        [new FeelNamed("Inés \u2028"), new FeelTried([One, Other]), new FeelTakenBack(3), new FeelUsed(new(-0.03, -0.01, 0.012, 0.004, 0.03))];

    [Theory]
    [MemberData(nameof(OfEveryKind), DisableDiscoveryEnumeration = true)]
    public void Read_AnEntryThatWasWritten_IsTheSame(FeelEntry entry) => Assert.Equivalent(entry, FeelEntry.Read(entry.ToJson()), strict: true);

    [Fact]
    public void Book_TakenBackAndPutBack_CountsWhatStands()
    {
        List<FeelEntry> entries = [new FeelNamed("Ines"), new FeelTried([One]), new FeelTried([Other, One])];
        Assert.Equal(3, new FeelBook(entries).Trials.Count);
        entries.Add(new FeelTakenBack(3));
        Assert.Equal(One, Assert.Single(Assert.Single(new FeelBook(entries).Booked).Trials));
        Assert.Equal(4, new FeelBook(entries).TakenBack!.Value.Number);
        Assert.Single(new FeelBook(entries).Problems(new FeelTakenBack(3)));
        entries.Add(new FeelTakenBack(4));
        Assert.Equal(3, new FeelBook(entries).Trials.Count);
        Assert.Null(new FeelBook(entries).TakenBack);
        // What was put back can be taken back once more.
        Assert.Empty(new FeelBook(entries).Problems(new FeelTakenBack(3)));
        entries.Add(new FeelTakenBack(3));
        Assert.Single(new FeelBook(entries).Trials);
    }

    [Fact]
    public void Book_NamedAgain_HasTheNewName() =>
        Assert.Equal("Inés", new FeelBook([new FeelNamed("Ines"), new FeelNamed("Inés")]).Name);

    [Theory]
    [InlineData(double.NaN, 0.2, 1, "firm", "gap")]
    [InlineData(0, 0.2, 1, "firm", "gap")]
    [InlineData(0.2, 2.5, 1, "firm", "blade")]
    [InlineData(0.2, 0.2, 0, "firm", "leaves")]
    [InlineData(0.2, 0.2, 1, "tight", "feel")]
    [InlineData(0.8, 0.2, 1, "loose", "gap")]
    public void Problems_OfATrialThatCannotBe_NameWhatIsWrong(double gap, double blade, int leaves, string feel, string path) =>
        Assert.Equal(path, Assert.Single(new TrialMade(gap, blade, leaves, feel).Problems()).Path);

    [Fact]
    public void Problems_NoTrialsOrTooMany_AreSaid()
    {
        FeelBook book = new([new FeelNamed("Ines"), new FeelTried([One])]);
        Assert.Single(book.Problems(new FeelTried([])));
        Assert.Single(book.Problems(new FeelTried([.. Enumerable.Repeat(One, FeelBook.MostTrials)])));
        Assert.Empty(book.Problems(new FeelTried([.. Enumerable.Repeat(One, FeelBook.MostTrials - 1)])));
    }

    [Fact]
    public void Write_Trials_ReadBackAsTheyWere()
    {
        FeelTrial[] trials = [One.ToTrial(), Other.ToTrial()];
        Assert.Equal("gap_mm,blade_mm,leaves,feel\r\n0.195,0.2,1,firm\r\n0.31,0.3,2,loose\r\n", System.Text.Encoding.UTF8.GetString(TrialFile.Write(trials)));
        Assert.Equal(trials, TrialFile.Read(TrialFile.Write(trials)).Trials);
    }

    /// <summary>Fingers whose thresholds waver by 0.006 either way, fitted with what the bench says of blades and slips.</summary>
    [Fact]
    public void Fit_BladesAndSlipsOfTheBench_AreTakenAsKnown()
    {
        static TrialMade Made(double play, double off) => new(
            0.2 + play, 0.2, 1, play + off < -0.025 ? "no" : play + off < -0.005 ? "firm" : play + off < 0.017 ? "light" : "loose");
        TrialMade[] trials = [.. Enumerable.Range(-10, 20).SelectMany(k => new[] { Made(0.005 * k, -0.006), Made(0.005 * k, 0), Made(0.005 * k, 0.006) })];
        var settings = new BenchSettings { Blade = 0.001, Feel = FeelSettings.Usual with { Slip = 0.07 } };
        FeelProfile fitted = new FeelBook([new FeelNamed("Ines"), new FeelTried(trials)]).Fit(settings).Fit!.Feel;
        Assert.Equal((0.07, 0.001), (fitted.Slip, fitted.Blade));
        Assert.Equal(-0.005, fitted.Light, 0.004);
    }
}
