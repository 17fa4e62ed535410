using System.Text.Json.Nodes;
using Shimwright.Bench.Engines;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Engines;

namespace Shimwright.Pages.Tests.Engines;

public class CardFormTests
{
    public static TheoryData<string, LengthUnit> Cards
    {
        get
        {
            TheoryData<string, LengthUnit> cards = [];
            foreach (string file in Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "demo"), "*.json"))
            {
                foreach (LengthUnit unit in Enum.GetValues<LengthUnit>())
                {
                    cards.Add(Path.GetFileName(file), unit);
                }
            }

            return cards;
        }
    }

    [Theory]
    [MemberData(nameof(Cards))]
    public void Read_ACardLeftAlone_ComesBackAsItWas(string file, LengthUnit unit)
    {
        EngineCard card = DemoCard(file);
        var lengths = new LengthStyle(unit);
        CardFormReading reading = CardFormReader.Read(CardFormWriter.Of(Stored(card), lengths), card, lengths);
        Assert.Empty(reading.Problems);
        EngineCard again = reading.Card!;
        Assert.Equal(card.Engine.Valvetrain, again.Engine.Valvetrain);
        Assert.Equal(card.Engine.Heat, again.Engine.Heat);
        Assert.Equal(card.Engine.Sense, again.Engine.Sense);
        Assert.Equal(card.Engine.Valves.Select(v => (v.Id, v.Cylinder, v.Side, v.Access)), again.Engine.Valves.Select(v => (v.Id, v.Cylinder, v.Side, v.Access)));
        Assert.All(card.Engine.Valves.Zip(again.Engine.Valves), v =>
        {
            Assert.Equal(v.First.Band.Low, v.Second.Band.Low, 1e-6);
            Assert.Equal(v.First.Band.High, v.Second.Band.High, 1e-6);
        });
        Assert.Equal(card.Wear, again.Wear);
        Assert.Equal(card.Layout?.FiringOrder, again.Layout?.FiringOrder);
        Assert.Equal(card.Layout?.FiringAngles, again.Layout?.FiringAngles);
        Assert.Equal(card.Layout?.Marks, again.Layout?.Marks);
        Assert.Equal(card.Layout?.Intake, again.Layout?.Intake);
        Assert.Equal(card.Layout?.StopsAnywhere, again.Layout?.StopsAnywhere);
    }

    [Fact]
    public void Read_LimitsForASide_AreThoseOfAllItsValves()
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm form = Filled(card);
        (form.ExhaustLow, form.ExhaustHigh) = ("0,20", "10 thou");
        EngineCard again = CardFormReader.Read(form, card, LengthStyle.Millimetres).Card!;
        Assert.All(again.Engine.Valves.Where(v => v.Side == Domain.Engines.ValveSide.Exhaust), v => Assert.Equal((0.20, 0.254), (v.Band.Low, v.Band.High)));
        Assert.All(again.Engine.Valves.Where(v => v.Side == Domain.Engines.ValveSide.Intake), v => Assert.Equal((0.10, 0.17), (v.Band.Low, v.Band.High)));
    }

    [Fact]
    public void Read_ManyThingsWrong_NamesEachUnderItsField()
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm form = Filled(card);
        form.Name = " ";
        form.Pitch = "1";
        form.Valves[2].Cylinder = "1.5";
        form.Valves[3].Low = "tight";
        form.Valves[4].High = "0.05";
        form.Valves[5].Id = "I1";
        form.Order = "1-3-x";
        form.IntakeOpens = "";
        form.Spread = "-1";
        form.Access[0].Minutes = "-5";
        (form.Thinnest, form.Thickest) = ("3.5", "1.2");
        string[] fields = [.. CardFormReader.Read(form, card, LengthStyle.Millimetres).Problems.Select(p => p.Path).Distinct().Order(StringComparer.Ordinal)];
        Assert.Equal(
            ["Access[0].Minutes", "IntakeOpens", "Name", "Order", "Pitch", "Spread", "Thickest", "Valves[2].Cylinder", "Valves[3].Low", "Valves[4].Low", "Valves[5].Id"],
            fields);
    }

    [Fact]
    public void Read_AValveTakenOffAndOneAdded_TheRestKeepsWhatHasNoField()
    {
        EngineCard card = EngineCard.Read("""
            {"name": "n", "valvetrain": "screw", "pitch": 1, "valves": [
              {"id": "I1", "cylinder": 1, "side": "intake", "access": "cover", "band": [0.1, 0.2]},
              {"id": "E1", "cylinder": 1, "side": "exhaust", "access": "cover", "band": [0.1, 0.2], "events": {"opens": 40, "closes": 30}, "alsoOffHeel": [{"from": 300, "length": 20}]}]}
            """).Card!;
        CardForm form = Filled(card);
        form.Valves[0].Id = "";
        form.Valves[1].Id = "E";
        form.Valves.Add(new ValveFields { Id = "N", Cylinder = "2", Side = "intake", Access = "cover", Low = "0.1", High = "0.2" });
        CardFormReading reading = CardFormReader.Read(form, card, LengthStyle.Millimetres);
        Assert.Empty(reading.Problems);
        var json = (JsonObject)JsonNode.Parse(reading.Card!.Json)!;
        Assert.Equal(["E", "N"], json["valves"]!.AsArray().Select(v => (string)v!["id"]!));
        Assert.Equal(40, (double)json["valves"]![0]!["events"]!["opens"]!);
        Assert.Equal(300, (double)json["valves"]![0]!["alsoOffHeel"]![0]!["from"]!);
    }

    [Fact]
    public void Read_AProblemBelowARowThatWasCleared_PointsAtTheRightRow()
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm form = Filled(card);
        form.Valves[0].Id = "";
        form.Valves[1].Cylinder = "99";
        JobProblem problem = Assert.Single(CardFormReader.Read(form, card, LengthStyle.Millimetres).Problems);
        Assert.Equal("Valves[1].Cylinder", problem.Path);
        Assert.Equal("I2, cylinder", CardFields.LabelOf(problem.Path, form));
    }

    [Fact]
    public void Read_ClearedFields_LeaveTheCardWithoutThem()
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm form = Filled(card);
        form.Order = form.IntakeOpens = form.IntakeCloses = form.ExhaustOpens = form.ExhaustCloses = "";
        form.Interval = form.Loss = form.Spread = "";
        form.Clock = "hours";
        EngineCard again = CardFormReader.Read(form, card, LengthStyle.Millimetres).Card!;
        Assert.Null(again.Layout);
        Assert.Null(again.Wear);
    }

    [Fact]
    public void Read_LeverOfAFinger_ComesBackAsItWas()
    {
        EngineCard card = DemoCard("05-finger-follower-single.json");
        CardForm form = Filled(card);
        Assert.Equal(("1.5", "usual", ""), (form.LeverRatio, form.FeltAt, form.Ratio));
        form.FeltAt = "valve";
        EngineCard felt = CardFormReader.Read(form, card, LengthStyle.Millimetres).Card!;
        Assert.Equal(new Lever(1.5, LeverEnd.Valve, LeverEnd.Valve), felt.Engine.Valvetrain.Lever);
        Assert.Equal("valve", Filled(felt).FeltAt);
        form.Ratio = "1.5";
        Assert.Equal("LeverRatio", Assert.Single(CardFormReader.Read(form, card, LengthStyle.Millimetres).Problems).Path);
    }

    // 100 mm of cast aluminium at 21.5e-6 over an austenitic valve at 15.5e-6: 0.0006 mm a degree, in place of what stood there.
    [Fact]
    public void Read_HeightAndMaterials_GiveWhatHeatAdds()
    {
        EngineCard card = DemoCard("04-shim-over-bucket-twin.json");
        CardForm form = Filled(card);
        (form.HeatHeight, form.HeatHead, form.HeatValve) = ("100", "aluminium", "austenitic");
        EngineCard again = CardFormReader.Read(form, card, LengthStyle.Millimetres).Card!;
        Assert.Equal(new HeatGain(0.0006, 0.0006), again.Engine.Heat);
        Assert.Equal(("0.0006", "", "none"), (Filled(again).Kappa, Filled(again).HeatHeight, Filled(again).HeatHead));
    }

    [Theory]
    [InlineData("", "aluminium", "austenitic", "HeatHeight")]
    [InlineData("100", "none", "austenitic", "HeatHead")]
    [InlineData("100", "iron", "none", "HeatValve")]
    [InlineData("0.5", "iron", "titanium", "HeatHeight")]
    [InlineData("tall", "iron", "titanium", "HeatHeight")]
    public void Read_HeightOrMaterialMissing_IsSaidUnderItsField(string height, string head, string valve, string field)
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm form = Filled(card);
        (form.HeatHeight, form.HeatHead, form.HeatValve) = (height, head, valve);
        Assert.Equal(field, Assert.Single(CardFormReader.Read(form, card, LengthStyle.Millimetres).Problems).Path);
    }

    [Fact]
    public void Read_DecompressorAndLiftOfTheEvents_ComeBackAsTheyWere()
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm form = Filled(card);
        Assert.Equal(("", "", "none"), (form.EventsAt, form.Decompressed, form.Lifts));
        (form.EventsAt, form.Decompressed, form.Lifts) = ("0", "E1, E2", "forwards");
        EngineCard again = CardFormReader.Read(form, card, LengthStyle.Millimetres).Card!;
        Assert.Equal(0, again.Layout!.EventsAt);
        Assert.Equal(["E1", "E2"], again.Decompressor!.Valves);
        CardForm filled = Filled(again);
        Assert.Equal(("0", "E1 E2", "forwards"), (filled.EventsAt, filled.Decompressed, filled.Lifts));
        filled.Decompressed = "E1 X9";
        Assert.Equal("Decompressed", Assert.Single(CardFormReader.Read(filled, again, LengthStyle.Millimetres).Problems).Path);
        (filled.Decompressed, filled.Lifts) = ("E1", "none");
        Assert.Equal("Lifts", Assert.Single(CardFormReader.Read(filled, again, LengthStyle.Millimetres).Problems).Path);
    }

    [Fact]
    public void Read_HeatOfEachSide_ComesBackAsItWas()
    {
        EngineCard card = DemoCard("04-shim-over-bucket-twin.json");
        CardForm form = Filled(card);
        Assert.Equal(("0.0004", ""), (form.Kappa, form.KappaExhaust));
        form.KappaExhaust = "-0.0002";
        form.Sense = "closing";
        EngineCard again = CardFormReader.Read(form, card, LengthStyle.Millimetres).Card!;
        Assert.Equal((new HeatGain(0.0004, -0.0002), GapSense.Closing), (again.Engine.Heat, again.Engine.Sense));
        CardForm filled = Filled(again);
        Assert.Equal(("0.0004", "-0.0002", "closing"), (filled.Kappa, filled.KappaExhaust, filled.Sense));
        filled.KappaExhaust = "";
        filled.Sense = "opening";
        EngineCard even = CardFormReader.Read(filled, again, LengthStyle.Millimetres).Card!;
        Assert.Equal((new HeatGain(0.0004, 0.0004), GapSense.Opening), (even.Engine.Heat, even.Engine.Sense));
    }

    [Theory]
    [InlineData("", "-0.0002", "Kappa")]
    [InlineData("0.0004", "warm", "KappaExhaust")]
    [InlineData("0.0004", "0.5", "KappaExhaust")]
    [InlineData("0.5", "0.0004", "Kappa")]
    public void Read_HeatThatCannotBeTaken_IsSaidUnderItsField(string both, string exhaust, string field)
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm form = Filled(card);
        (form.Kappa, form.KappaExhaust) = (both, exhaust);
        Assert.Equal(field, Assert.Single(CardFormReader.Read(form, card, LengthStyle.Millimetres).Problems).Path);
    }

    [Fact]
    public void Between_TwoForms_TheFieldsThatDifferAreNamed()
    {
        EngineCard card = DemoCard("02-worn-four.json");
        CardForm mine = Filled(card);
        mine.Ratio = "1.2";
        mine.Valves[1].Low = "0.09";
        Assert.Equal([("Ratio at the gap", "", "1.2"), ("I2, lower limit", "0.1", "0.09")], CardDifference.Between(Filled(card), mine));
    }

    [Fact]
    public void All_EveryTextOfTheForm_IsAFieldOnce()
    {
        string[] ofASide = [nameof(CardForm.IntakeLow), nameof(CardForm.IntakeHigh), nameof(CardForm.ExhaustLow), nameof(CardForm.ExhaustHigh)];
        Assert.Equal(
            typeof(CardForm).GetProperties().Where(p => p.PropertyType == typeof(string) && p.GetIndexParameters().Length == 0).Select(p => p.Name).Except(ofASide).Order(StringComparer.Ordinal),
            CardForm.All.Select(f => f.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void FieldOf_ThePathOfEachField_IsThatField() =>
        Assert.All(
            CardForm.All.SelectMany(f => f.AlsoAt.Append(f.Value.Path).OfType<string>().Select(path => (f.Name, Path: path))),
            f => Assert.Equal(f.Name, CardFields.FieldOf($"$.{f.Path}", new CardForm(), [])));

    [Theory]
    [InlineData(LengthUnit.Mm, "Average, mm. Default 0.008.")]
    [InlineData(LengthUnit.Thou, "Average, thou. Default 0.008 mm.")]
    public void Hint_OfTheLoss_SaysWhatTheCardTakesForABlankOne(LengthUnit unit, string hint)
    {
        CardField loss = CardForm.All.Single(f => f.Name == nameof(CardForm.Loss));
        Assert.Equal(hint, loss.Hint!(new LengthStyle(unit)));
        Assert.Equal(0.008, EngineCard.Read("""
            {"name": "n", "valvetrain": "screw", "pitch": 1, "valves": [{"id": "I1", "cylinder": 1, "side": "intake", "access": "cover", "band": [0.1, 0.2]}], "wear": {"interval": 30}}
            """).Card!.Wear!.LossPerInterval);
    }

    private static CardForm Filled(EngineCard card) => CardFormWriter.Of(Stored(card), LengthStyle.Millimetres);

    private static StoredEngine Stored(EngineCard card) =>
        new(Guid.NewGuid(), card.Engine.Name, "", 1, Guid.NewGuid(), card.Engine.Name, 1, 1, card, new CardDetails(), EnginePapers.Blank);

    private static EngineCard DemoCard(string file) =>
        Shimwright.Jobs.Setups.JobSetup.FromFile(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "demo", file))).Setup!.Card;
}
