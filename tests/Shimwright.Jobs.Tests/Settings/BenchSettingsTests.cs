using System.Text.Json;
using System.Text.Json.Nodes;
using Shimwright.Domain.Advice;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Settings;

public class BenchSettingsTests
{
    public static TheoryData<string, Func<double, BenchSettings>> Numbers() => new()
    {
        { "blades", n => new() { Blades = [n] } },
        { "firm", n => new() { Feel = FeelSettings.Usual with { Firm = n } } },
        { "light", n => new() { Feel = FeelSettings.Usual with { Light = n } } },
        { "loose", n => new() { Feel = FeelSettings.Usual with { Loose = n } } },
        { "spread", n => new() { Feel = FeelSettings.Usual with { Spread = n } } },
        { "slip", n => new() { Feel = FeelSettings.Usual with { Slip = n } } },
        { "doubt", n => new() { Feel = FeelSettings.Usual with { Doubt = n } } },
        { "blade", n => new() { Blade = n } },
        { "seating", n => new() { Seating = n } },
        { "keepFloor", n => new() { KeepFloor = n } },
        { "passFloor", n => new() { PassFloor = n } },
        { "risk", n => new() { Risk = n } },
        { "serviceLevel", n => new() { ServiceLevel = n } },
        { "redo", n => new() { Redo = n } },
        { "lift", n => new() { Lift = n } },
        { "swap", n => new() { Swap = n } },
        { "disturb", n => new() { Disturb = n } },
        { "minutesPerCurrency", n => new() { MinutesPerCurrency = n } },
        { "tryBlade", n => new() { Minutes = ActionTimes.Usual with { Blade = n } } },
        { "stack", n => new() { Minutes = ActionTimes.Usual with { Stack = n } } },
        { "bucket", n => new() { Minutes = ActionTimes.Usual with { Bucket = n } } },
        { "micrometer", n => new() { Minutes = ActionTimes.Usual with { Micrometer = n } } },
        { "depth", n => new() { Minutes = ActionTimes.Usual with { Depth = n } } },
        { "dryFit", n => new() { Minutes = ActionTimes.Usual with { DryFit = n } } },
        { "from", n => new() { SizesToBuy = [new(n, 3, 0.1, 1)] } },
        { "to", n => new() { SizesToBuy = [new(2, n, 0.1, 1)] } },
        { "step", n => new() { SizesToBuy = [new(2, 3, n, 1)] } },
        { "price", n => new() { SizesToBuy = [new(2, 3, 0.1, n)] } },
    };

    [Fact]
    public void Problems_OfTheUsualSettings_AreNone() => Assert.Empty(new BenchSettings().Problems());

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Problems_NoNumberOrOneOutOfAllReach_AreNamed(string what, Func<double, BenchSettings> with)
    {
        Assert.NotEmpty(what);
        Assert.All((double[])[double.NaN, double.PositiveInfinity, double.NegativeInfinity, -1e9, 1e9], n => Assert.NotEmpty(with(n).Problems()));
    }

    [Fact]
    public void Problems_FeelThatDoesNotRise_IsNamed() =>
        Assert.Contains("must rise", new BenchSettings { Feel = FeelSettings.Usual with { Light = 0.03 } }.Problems().Single().ToString(), StringComparison.Ordinal);

    [Fact]
    public void Problems_BladeTwice_IsNamed() =>
        Assert.Contains("stands there twice", new BenchSettings { Blades = [0.1, 0.1] }.Problems().Single().ToString(), StringComparison.Ordinal);

    [Fact]
    public void Problems_UnknownChoices_AreNamed() =>
        Assert.Equal(["unit", "theme", "currency"], new BenchSettings { Unit = "ell", Theme = "sepia", Currency = "a long currency" }.Problems().Select(p => p.Path));

    [Fact]
    public void Problems_WorkshopAndZoneThatCannotBePrinted_AreNamed() =>
        Assert.Equal(
            ["workshop.address", "workshop.name", "timeZone"],
            new BenchSettings { Workshop = new("two\nlines", "1\n2\n3\n4\n5\n6\n7", null), TimeZone = "../zone" + '\t' }.Problems().Select(p => p.Path));

    [Fact]
    public void Read_WhatToJsonWrote_IsTheSame()
    {
        BenchSettings settings = new()
        {
            Blades = [0.1],
            Feel = new(-0.03, -0.006, 0.018, 0.007, 0.03, 0.003),
            Blade = 0.004,
            Seating = 0.005,
            KeepFloor = 0.6,
            PassFloor = 0.7,
            Risk = 0.2,
            ServiceLevel = 0.8,
            Redo = 1,
            Lift = 2,
            Swap = 5,
            Disturb = 6,
            MinutesPerCurrency = 4,
            SizesToBuy = [new(1, 2, 0.5, 6)],
            KitsOffered = [new("Small box", 9.48, 2, 3, 0.05, 3, 90)],
            Currency = "½",
            Unit = "thou",
            Distance = "mi",
            Theme = "sun",
            NextComes = false,
            TellsOfFeel = false,
            CopyFolder = Path.GetTempPath(),
            CopiesKept = 9,
            Workshop = new("Pump works", "Quay 3\nHarbour town", Guid.NewGuid()),
            TimeZone = "Europe/Vienna",
            Minutes = new(1, 2, null, 4, null, 6),
        };
        BenchSettings read = BenchSettings.Read(settings.ToJson());
        Assert.Equivalent(settings, read, strict: true);
        Assert.Empty(settings.Problems());

        // A member that the example above forgets would still have its default.
        using var mine = JsonDocument.Parse(settings.ToJson());
        using var usual = JsonDocument.Parse(new BenchSettings().ToJson());
        Assert.All(mine.RootElement.EnumerateObject(), p => Assert.NotEqual(usual.RootElement.GetProperty(p.Name).GetRawText(), p.Value.GetRawText()));
    }

    [Fact]
    public void Read_SettingsFromBeforeAMemberWasThere_TakesItsDefault() => Assert.Equal(60, BenchSettings.Read("""{"unit": "in"}""").Redo);

    /// <summary>A feel that was kept before its doubt was has the usual one.</summary>
    [Fact]
    public void Read_FeelFromBeforeItsDoubtWasThere_TakesTheUsualDoubt() => Assert.Equal(
        new FeelSettings(-0.03, -0.006, 0.018, 0.007, 0.03, 0.005),
        BenchSettings.Read("""{"feel": {"firm": -0.03, "light": -0.006, "loose": 0.018, "spread": 0.007, "slip": 0.03}}""").Feel);

    [Fact]
    public void Read_SettingsFromBeforeTheirMinutesWere_TakesTheUsualOnes() =>
        Assert.Equal(new ActionTimes(0.5, 1, 0.2, 0.7, 4, 10), BenchSettings.Read("""{"redo": 70}""").Minutes);

    /// <summary>What cannot be done here is never advised, and reads back from a job's file the same.</summary>
    [Fact]
    public void ForJob_NoMinutes_CannotBeDone()
    {
        EngineCard card = EngineCard.Read((JsonObject)Sample.Shims().At("$.engine").DeepClone()).Card!;
        BenchSettings bench = new() { Minutes = new(1, null, 3, null, null, null) };
        JobSetup setup = JobSetup.Begin(card, 1, 20, bench.ForJob(new Dictionary<string, double> { ["exhaust cam"] = 9 })).Setup!;
        ActionMinutes minutes = setup.Start.ToAdviceRequest().Minutes;
        Assert.Equal(new ActionMinutes(1, null, 3, null, null, null), minutes);
    }

    [Fact]
    public void Read_NullWhereSomethingBelongs_IsRefused() => Assert.Throws<JsonException>(() => BenchSettings.Read("""{"blades": null}"""));

    [Fact]
    public void ForJob_EverySetting_ReachesTheJob()
    {
        BenchSettings bench = new()
        {
            Blades = [0.07],
            Feel = new(-0.03, -0.006, 0.018, 0.007, 0.03, 0.003),
            Blade = 0.004,
            Seating = 0.005,
            KeepFloor = 0.6,
            PassFloor = 0.7,
            Redo = 1,
            Swap = 3,
            Disturb = 8,
            MinutesPerCurrency = 4,
            SizesToBuy = [new(1, 2, 0.5, 6), new(2.1, 2.1, 0.1, 7)],
        };
        EngineCard card = EngineCard.Read((JsonObject)Sample.Shims().At("$.engine").DeepClone()).Card!;
        Job job = JobSetup.Begin(card, 1, 20, bench.ForJob(new Dictionary<string, double> { ["exhaust cam"] = 9 })).Setup!.Start;
        Assert.Equal([0.07], job.Blades);
        Assert.Equal((-0.03, -0.006, 0.018, 0.007, 0.03, 0.004),
            (job.Check.Feel.Firm, job.Check.Feel.Light, job.Check.Feel.Loose, job.Check.Feel.StandardDeviation, job.Check.Feel.Slip, job.Check.Feel.Blade));
        Assert.Equal((0.003, 0.7), (job.Check.Feel.Doubt, job.ToRecheck().Pass!.Floor));
        Assert.Equal((0.005, 0.6), (job.Rules.Seating.StandardDeviation, job.Rules.KeepFloor));
        Assert.Equal((1, 3, 8, 4, 9), (job.Costs.Redo, job.Costs.Swap, job.Costs.Disturb, job.Costs.MinutesPerCurrency, job.Costs.AccessOf("exhaust cam")));
        Assert.Equal([(1, 6), (1.5, 6), (2, 6), (2.1, 7)], job.Stock.Sizes.Select(s => (s.Thickness.Millimetres, s.Price)));
    }
}
