using Shimwright.Domain.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Engines;

namespace Shimwright.Pages.Tests.Engines;

public class CardQuestionsTests
{
    private static readonly Dictionary<string, string> Single = new()
    {
        ["name"] = "Ditch pump",
        ["train"] = "shim-under-bucket",
        ["cylinders"] = "1",
        ["banks"] = "line",
        ["valves"] = "2+2",
        ["access"] = "side",
        ["intakeLow"] = "0,10",
        ["intakeHigh"] = "0.17",
        ["exhaustLow"] = "7 thou",
        ["exhaustHigh"] = "0.24",
    };

    [Fact]
    public void At_NothingAnswered_TheFirstScreenWithoutProblems()
    {
        CardQuestions ask = Ask(new(), CardScreen.Engine);
        Assert.Equal(CardScreen.Engine, ask.Screen);
        Assert.Empty(ask.Problems);
    }

    [Fact]
    public void At_TheNextScreenWithNothingAnswered_StaysAndNamesEveryQuestion()
    {
        CardQuestions ask = Ask(new(), CardScreen.Access);
        Assert.Equal(CardScreen.Engine, ask.Screen);
        Assert.Equal(["name", "train", "cylinders", "valves"], ask.Problems.Select(p => p.Path));
    }

    [Fact]
    public void At_TheSummary_TheCardHoldsWhatWasAnswered()
    {
        CardQuestions ask = Ask(Single, CardScreen.Summary);
        Assert.Equal(CardScreen.Summary, ask.Screen);
        Engine engine = ask.Card!.Engine;
        Assert.Equal(["I1", "I2", "E1", "E2"], engine.Valves.Select(v => v.Id));
        Assert.Equal(["intake cam", "exhaust cam"], engine.AccessGroups);
        Assert.Equal(0.10, engine.Valves[0].Band.Low);
        Assert.Equal(0.1778, engine.Valves[2].Band.Low, 1e-9);
        Assert.Equal([1], ask.Card.Layout!.FiringOrder);
    }

    /// <summary>Where there are shims their diameter is asked; without it the drawer would be left out and nothing said.</summary>
    [Theory]
    [InlineData("shim-under-bucket", "9,48", 9.48)]
    [InlineData("shim-under-bucket", "", null)]
    [InlineData("screw", "9.48", null)]
    public void At_TheSummary_HasTheShimDiameterWhereThereAreShims(string train, string typed, double? expected)
    {
        CardQuestions ask = Ask(With(Single, ("train", train), ("pitch", "1"), ("diameter", typed)), CardScreen.Summary);
        Assert.Equal(CardScreen.Summary, ask.Screen);
        Assert.Equal(expected, ask.ShimDiameter);
    }

    [Theory]
    [InlineData("wide")]
    [InlineData("948")]
    public void At_TheSummary_ADiameterThatCannotBe_GoesBackToTheLimits(string typed)
    {
        CardQuestions ask = Ask(With(Single, ("diameter", typed)), CardScreen.Summary);
        Assert.Equal(CardScreen.Limits, ask.Screen);
        Assert.Equal(["diameter"], ask.Problems.Select(p => p.Path));
    }

    /// <summary>Equal limits are said once, others for the valves that share them.</summary>
    [Fact]
    public void Limits_OfACard_AreSaidOnce()
    {
        Engine engine = Ask(Single, CardScreen.Summary).Card!.Engine;
        Assert.Equal(["All intake", "All exhaust"], CardWords.Limits(engine.Valves, LengthStyle.Millimetres).Select(l => l.Whose));
        Valve odd = new(engine.Valves[1].Id, 1, ValveSide.Intake, engine.Valves[1].Access, new ClearanceBand(0.12, 0.18));
        Assert.Equal(
            [("I1", "0.100-0.170"), ("I2", "0.120-0.180")],
            CardWords.Limits([engine.Valves[0], odd], LengthStyle.Millimetres));
    }

    [Fact]
    public void At_TheSummaryWithALimitMissing_GoesBackToTheLimits()
    {
        CardQuestions ask = Ask(With(Single, ("exhaustHigh", "")), CardScreen.Summary);
        Assert.Equal(CardScreen.Limits, ask.Screen);
        Assert.Equal(["exhaustHigh"], ask.Problems.Select(p => p.Path));
        Assert.Null(ask.Card);
    }

    [Fact]
    public void At_ALowerLimitAboveTheUpper_IsSaidOnceUnderItsQuestion()
    {
        CardQuestions ask = Ask(With(Single, ("intakeLow", "0.20")), CardScreen.Crank);
        Assert.Equal(CardScreen.Limits, ask.Screen);
        Assert.Equal("intakeLow", Assert.Single(ask.Problems).Path);
    }

    [Theory]
    [InlineData("shim-under-bucket", "one", "cam")]
    [InlineData("finger-follower", "side", "intake cam,exhaust cam")]
    [InlineData("finger-follower", "none", "")]
    [InlineData("shim-over-bucket", "one", "cover")]
    [InlineData("shim-over-bucket", "side", "intake cover,exhaust cover")]
    public void Card_AValveTrain_NamesWhatComesOff(string train, string access, string groups) =>
        Assert.Equal(groups.Split(',', StringSplitOptions.RemoveEmptyEntries), Ask(With(Single, ("train", train), ("access", access)), CardScreen.Summary).Card!.Engine.AccessGroups);

    [Fact]
    public void Card_Screws_NeedTheirPitch()
    {
        Dictionary<string, string> screws = With(Single, ("train", "screw"), ("access", "one"));
        Assert.Equal("pitch", Assert.Single(Ask(screws, CardScreen.Limits).Problems).Path);
        Engine engine = Ask(With(screws, ("pitch", "0,75"), ("leverRatio", "1.35"), ("screwAt", "push-rod")), CardScreen.Summary).Card!.Engine;
        Assert.Equal(0.75, engine.Valvetrain.Pitch);
        Assert.Equal(1.35, engine.Valvetrain.Ratio);
        Assert.Equal(["rocker cover"], engine.AccessGroups);
    }

    [Theory]
    [InlineData("halves", new[] { 1, 1, 2, 2 })]
    [InlineData("odd", new[] { 1, 2, 1, 2 })]
    public void Card_TwoBanks_EachCylinderIsOnItsOwn(string banks, int[] bankOfCylinder)
    {
        Engine engine = Ask(With(Single, ("cylinders", "4"), ("banks", banks), ("valves", "1+1")), CardScreen.Summary).Card!.Engine;
        Assert.Equal(bankOfCylinder.Select(b => $"bank {b} intake cam"), engine.Valves.Take(4).Select(v => v.Access));
        Assert.Equal(4, engine.AccessGroups.Count);
    }

    [Fact]
    public void At_TwoBanksOfAnOddNumber_IsRefused() =>
        Assert.Equal("banks", Assert.Single(Ask(With(Single, ("cylinders", "3"), ("banks", "odd")), CardScreen.Access).Problems).Path);

    [Fact]
    public void At_MoreValvesThanACardHolds_IsRefused() =>
        Assert.Equal("valves", Assert.Single(Ask(With(Single, ("cylinders", "24"), ("valves", "3+2")), CardScreen.Access).Problems).Path);

    [Theory]
    [InlineData("0")]
    [InlineData("25")]
    [InlineData("1.5")]
    [InlineData("two")]
    public void At_NoNumberOfCylinders_SaysWhatIsAllowed(string cylinders) =>
        Assert.Contains("1 to 24", Assert.Single(Ask(With(Single, ("cylinders", cylinders)), CardScreen.Access).Problems).Allowed, StringComparison.Ordinal);

    [Fact]
    public void Order_AUsualOne_CountsOnlyOnceItIsConfirmed()
    {
        Dictionary<string, string> six = With(Single, ("cylinders", "6"));
        Assert.Null(Ask(six, CardScreen.Summary).Card!.Layout);

        // The order of in-line sixes is printed so in TM 5-3895-383-24, page 6-61.
        Assert.Equal([1, 5, 3, 6, 2, 4], Ask(With(six, ("usual", "yes")), CardScreen.Summary).Card!.Layout!.FiringOrder);
        Assert.Equal([1, 4, 2, 6, 3, 5], Ask(With(six, ("usual", "yes"), ("order", "1 4 2 6 3 5")), CardScreen.Summary).Card!.Layout!.FiringOrder);
    }

    [Theory]
    [InlineData(2, false)]
    [InlineData(3, false)]
    [InlineData(4, false)]
    [InlineData(6, true)]
    [InlineData(8, true)]
    public void Usual_WhereSeveralOrdersAre_NoneIsSuggested(int cylinders, bool twoBanks) =>
        // Fours fire 1-3-4-2 (TM 5-3895-383-24, page 6-60) or 1-2-4-3 (TM 5-4310-354-14, paragraph 4-50).
        Assert.Null(FiringOrders.Usual(cylinders, twoBanks));

    [Theory]
    [InlineData("1-3")]
    [InlineData("1-3-4-5")]
    [InlineData("1-3-3-2")]
    [InlineData("one")]
    public void At_AnOrderThatIsNone_IsRefused(string order) =>
        Assert.Equal("order", Assert.Single(Ask(With(Single, ("cylinders", "4"), ("order", order)), CardScreen.Summary).Problems).Path);

    [Fact]
    public void Card_CamEvents_MakeTheStopsPossible()
    {
        (string, string)[] events = [("intakeOpens", "20"), ("intakeCloses", "55"), ("exhaustOpens", "55"), ("exhaustCloses", "20")];
        Assert.Empty(Ask(With(Single, events), CardScreen.Summary).Card!.StopsProblems);
    }

    [Fact]
    public void At_HalfOfTheEvents_AsksForTheOther() =>
        Assert.Equal("intakeCloses", Assert.Single(Ask(With(Single, ("intakeOpens", "20")), CardScreen.Summary).Problems).Path);

    [Fact]
    public void At_KilometresWithoutAnInterval_SaysWhereTheyAreKept()
    {
        Assert.Equal("interval", Assert.Single(Ask(With(Single, ("clock", "km")), CardScreen.Summary).Problems).Path);
        Assert.True(Ask(With(Single, ("clock", "km"), ("interval", "40000")), CardScreen.Summary).Card!.Wear!.CountsKilometres);
    }

    [Fact]
    public void AddressOf_EveryAnswer_ComesBackFromIt()
    {
        CardAnswers answers = CardAnswers.From(k => With(Single, ("name", "A & B, 50% <b>")).GetValueOrDefault(k));
        Dictionary<string, Microsoft.Extensions.Primitives.StringValues> query =
            Microsoft.AspNetCore.WebUtilities.QueryHelpers.ParseQuery(new Uri("http://x" + answers.AddressOf(CardScreen.Limits)).Query);
        Assert.Equal("limits", query["at"]);
        Assert.Equal("A & B, 50% <b>", query["name"]);
        Assert.Equal(Single["exhaustLow"], query["exhaustLow"]);
    }

    private static CardQuestions Ask(Dictionary<string, string> answers, CardScreen at) =>
        new(CardAnswers.From(k => answers.GetValueOrDefault(k)), at, LengthStyle.Millimetres);

    private static Dictionary<string, string> With(Dictionary<string, string> answers, params (string Key, string Value)[] others)
    {
        Dictionary<string, string> all = new(answers);
        foreach ((string key, string value) in others)
        {
            all[key] = value;
        }

        return all;
    }
}
