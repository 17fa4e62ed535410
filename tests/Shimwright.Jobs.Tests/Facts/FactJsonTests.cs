using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Facts;

public class FactJsonTests
{
    /// <summary>One fact of every kind, each member with a value that its default is not.</summary>
    private static readonly JobFact[] OfEveryKind =
    [
        new BladeTried(SheetPart.Recheck, "I1", 0.13, 2, "light"),
        new ClearanceRead(SheetPart.Recheck, "I1", -0.02, 0.02),
        new BucketTurned(SheetPart.Recheck, "I1", true),
        new DepthTaken(SheetPart.Check, "I1", "intake cam", new MeasuredPart(13.962, 0.005, 9), new MeasuredPart(2.62, 0.002, 9)),
        new CamshaftMeasured("intake cam", new(11.482, 0.004, 4), new(22.965, 0.002, 9), new(28.01, 0.003), new(0.025, 0.007)),
        new CamshaftCompared("exhaust cam", "E1", new(14.166, 0.005, 9), new(0.184, 0.007), new(2.6, 0.002)),
        new CheckStated(118.5, 21.5),
        new RecheckStated(22),
        new LossSuspected("dust"),
        new ThicknessFound("Ventil é½", 2.62, "micrometer"),
        new StockStated([new(2.5, "marked", 3)], [new(1.2, 3.5, 0.05, 8)]),
        new CostsStated(91, 4, 1.5, 30, new Dictionary<string, double> { ["intake cam"] = 25 }),
        new PlanAccepted(["intake cam"], 0.93, 61.2, [new(2.5, 2)],
            [
                new("I1", new(0.1, 0.01, 0.08, 0.12, 0.3, "unsettled"), "fit", new(2.62, "marked"), new(2.5, "marked", "engine", "E1"),
                    new(0.15, 0.01, 0.13, 0.17), 0.97, null, "0.10 + 0.12"),
                new("E1", new(0.2, 0.01, 0.18, 0.22, 0.9, "in"), "turn", null, null, null, null, 0.25, ""),
            ],
            [new("E1", "no size at hand")]),
        new PlanReleased(),
        new StepTicked("open/intake cam", true),
        new CrankTurned(SheetPart.Recheck, 2),
        new ShimFitted("I1", new(2.62, "marked"), new(2.5, "micrometer")),
        new ScrewTurned("I1", -0.25),
        new JobNoted("Line one\nline \"two\" \u2028 \0 é"),
        new JobNumbered("W-204/26"),
        new PhotoKept(Ledger.Action(4), "marks", "Both marks level", true, true),
        new JobClosed(119, "dust", "come back", "the bench"),
        new JobReopened(),
        new JobDiscarded(),
        new JobPutBack(),
        new ClockAnswered(ClockAnswered.Meter, 118.5),
        new Undone(Ledger.Action(3), 7),
    ];

    public static TheoryData<string> Kinds() => [.. Concrete.Select(t => t.Name)];

    private static Type[] Concrete =>
        [.. typeof(JobFact).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(JobFact)) && !t.IsAbstract).OrderBy(t => t.Name, StringComparer.Ordinal)];

    [Fact]
    public void OfEveryKind_ThereIsAnExample() =>
        Assert.Equal(Concrete.Select(t => t.Name), OfEveryKind.Select(f => f.GetType().Name).Order(StringComparer.Ordinal));

    [Fact]
    public void Names_OfTheKinds_AreAllDifferent()
    {
        JsonDerivedTypeAttribute[] kinds =
            [.. typeof(JobFact).GetCustomAttributes(typeof(JsonDerivedTypeAttribute), false).Cast<JsonDerivedTypeAttribute>()];
        Assert.Equal(Concrete, kinds.Select(k => k.DerivedType).OrderBy(t => t.Name, StringComparer.Ordinal));
        Assert.Equal(kinds.Length, kinds.Select(k => k.TypeDiscriminator).Distinct().Count());
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Write_AndRead_GiveTheSameFact(string kind)
    {
        JobFact fact = OfEveryKind.Single(f => f.GetType().Name == kind);
        string json = FactJson.Write(fact);
        Assert.DoesNotContain('\n', json);
        Assert.DoesNotContain('\0', json);
        JobFact read = FactJson.Read(json);
        Assert.IsType(fact.GetType(), read);
        Assert.Equivalent(fact, read, strict: true);
        Assert.Equal(json, FactJson.Write(read));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Read_WithoutOneOfItsMembers_IsRefused(string kind)
    {
        using var document = JsonDocument.Parse(FactJson.Write(OfEveryKind.Single(f => f.GetType().Name == kind)));
        // The entry of an undo, whose drawer it was, what disturbing costs, a plan's two parts and whether it carries on came later, a depth may have been taken with the shim in place, and play may not be
        // known: they may be left out.
        foreach (JsonProperty left in document.RootElement.EnumerateObject().Where(p => p.Name is not ("fact" or "entry" or "shim" or "play" or "fromShop" or "disturb" or "work" or "toCome" or "carriesOn")))
        {
            var rest = document.RootElement.EnumerateObject().Where(p => p.Name != left.Name).ToDictionary(p => p.Name, p => p.Value);
            Assert.Throws<JsonException>(() => FactJson.Read(JsonSerializer.Serialize(rest)));
        }
    }

    [Theory]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("""{"fact": "rumour"}""")]
    [InlineData("""{"fact": "note", "text": null}""")]
    [InlineData("""{"fact": "blade", "part": "Third", "valve": "I1", "blade": 0.1, "leaves": 1, "feel": "light"}""")]
    public void Read_NoFact_IsRefused(string json) => Assert.ThrowsAny<Exception>(() => FactJson.Read(json));

    [Fact]
    public void Read_NameOfTheKindAtTheEnd_IsTaken() =>
        Assert.Equal(new JobNoted("later"), FactJson.Read("""{"text": "later", "fact": "note"}"""));
}
