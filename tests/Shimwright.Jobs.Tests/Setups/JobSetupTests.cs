using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Tests.Setups;

public class JobSetupTests
{
    [Fact]
    public void Begin_WithTheBenchsSettings_StartsFromThem()
    {
        BenchSettings bench = new() { Blades = [0.1, 0.2], Redo = 77, Seating = 0.005, SizesToBuy = [new(2, 3, 0.5, 1)] };
        JobSetup setup = Begins(250, 15, bench.ForJob(new Dictionary<string, double> { ["intake cam"] = 11 }));
        Job job = setup.Start;
        Assert.Equal((250, 15), (job.Clock, job.Check.Temperature));
        Assert.Equal([0.1, 0.2], job.Blades);
        Assert.Equal((77, 0.005), (job.Costs.Redo, job.Rules.Seating.StandardDeviation));
        Assert.Equal(11, job.Costs.AccessOf("intake cam"));
        Assert.Equal([2, 2.5, 3], job.Stock.Sizes.Select(s => s.Thickness.Millimetres));
        Assert.All(job.Check.Readings, r => Assert.True(r.IsEmpty));
    }

    [Fact]
    public void Begin_WithNothingOfTheBench_TakesTheUsual()
    {
        Job job = Begins(0, 20, new()).Start;
        Assert.Equal(13, job.Blades.Count);
        Assert.Equal(60, job.Costs.Redo);
    }

    [Fact]
    public void Begin_WithALoss_ExpectsIt() =>
        Assert.Equal(0.09, Begins(0, 20, new(Loss: new(Shared: 0.09))).Start.Check.Loss.Shared);

    [Theory]
    [InlineData(-1, 20, "$.check.clock")]
    [InlineData(double.NaN, 20, "$.check.clock")]
    [InlineData(double.PositiveInfinity, 20, "$.check.clock")]
    [InlineData(1, 400, "$.check.temperatureC")]
    [InlineData(1, double.NaN, "$.check.temperatureC")]
    public void Begin_WithWrongNumbers_SaysWhich(double clock, double temperature, string path)
    {
        ParsedSetup reading = JobSetup.Begin(Card(), clock, temperature, new());
        Assert.Null(reading.Setup);
        Assert.Equal(path, Assert.Single(reading.Problems).Path);
    }

    [Fact]
    public void Begin_WithWrongSettings_SaysWhich() => Assert.Equal(
        "$.costs.redo", Assert.Single(JobSetup.Begin(Card(), 1, 20, new(Costs: new(Redo: -1))).Problems).Path);

    [Fact]
    public void FromFile_WrongFile_NamesEverything()
    {
        ParsedSetup reading = JobSetup.FromFile(Sample.Shims().Set("$.check.clock", "-1").Set("$.costs.redo", "-1").Bytes);
        Assert.Null(reading.Setup);
        Assert.Empty(reading.Facts);
        Assert.Equal(["$.check.clock", "$.costs.redo"], reading.Problems.Select(p => p.Path));
    }

    [Fact]
    public void FromFile_FileWithAByteOrderMark_IsTaken()
    {
        ParsedSetup reading = JobSetup.FromFile((byte[])[.. Encoding.UTF8.Preamble, .. Sample.Shims().Bytes]);
        Assert.Empty(reading.Problems);
        Assert.NotEmpty(reading.Facts);
    }

    [Fact]
    public void FromFile_FileWithNothingReadYet_HasNoFacts()
    {
        ParsedSetup reading = JobSetup.FromFile(Sample.Screws().Remove("$.recheck").Set("$.check.readings", "[]").Bytes);
        Assert.Empty(reading.Facts);
        Assert.NotNull(reading.Setup);
    }

    [Fact]
    public void FromFile_Setup_HoldsNoFactsOfItsOwn()
    {
        foreach (string file in Demo.Files)
        {
            JobSetup setup = Takes(Encoding.UTF8.GetBytes(Demo.WithRecheck(file)));
            var kept = (JsonObject)JsonNode.Parse(setup.Json)!;
            Assert.Empty((JsonArray)kept["check"]!["readings"]!);
            Assert.Null(kept["check"]!["fitted"]);
            Assert.Null(kept["recheck"]);
            Assert.DoesNotContain('\n', setup.Json);
        }
    }

    [Fact]
    public void Read_WhatWasKept_IsTheSameSetup()
    {
        foreach (string file in Demo.Files)
        {
            JobSetup setup = Takes(Encoding.UTF8.GetBytes(Demo.Text(file)));
            JobSetup again = JobSetup.Read(setup.Json);
            Assert.Equal(setup.Json, again.Json);
            Assert.Equal(setup.Card.Json, again.Card.Json);
            Assert.Equal(setup.Start.Clock, again.Start.Clock);
        }
    }

    [Fact]
    public void Read_WhatWasNeverKept_Throws() => Assert.Throws<InvalidOperationException>(() => JobSetup.Read("{}"));

    [Fact]
    public void FromFile_Card_IsThatOfTheEngine() => Assert.Equal("Bench single", Takes(Sample.Shims().Bytes).Card.Engine.Name);

    private static EngineCard Card() => EngineCard.Read((JsonObject)Sample.Shims().At("$.engine").DeepClone()).Card!;

    private static JobSetup Begins(double clock, double temperature, WrittenStart bench)
    {
        ParsedSetup reading = JobSetup.Begin(Card(), clock, temperature, bench);
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        Assert.Empty(reading.Facts);
        return reading.Setup!;
    }

    private static JobSetup Takes(byte[] file)
    {
        ParsedSetup reading = JobSetup.FromFile(file);
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        return reading.Setup!;
    }
}
