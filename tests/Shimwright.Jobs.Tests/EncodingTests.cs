using System.Text;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

public class EncodingTests
{
    /// <summary>Bytes that no UTF-8 text holds, each spoiling a sequence in another way.</summary>
    private static readonly byte[][] Broken = [[0xFF], [0xC3], [0xE2, 0x82], [0xED, 0xA0, 0x80], [0xC0, 0xAF]];

    /// <summary>Places in the sample, each with a ~ where the broken bytes go.</summary>
    public static TheoryData<string> Places() =>
    [
        "\"~Bench single\"", "\"shim~wright-job/1\"", "\"valve\":\"I1~\",\"trials\"", "0.10,\"feel\":\"~loose\"", "\"by\":\"calli~per\",\"count\"",
        "\"~marks\",\"rampDeg\"", "\"intake~ cam\":25", "\"clock~\":118", "\"clock\":1~18", "\"check\":~{",
    ];

    [Fact]
    public void Read_ByteOrderMark_IsPassedOver()
    {
        ParsedJob reading = JobFile.Read(new byte[] { 0xEF, 0xBB, 0xBF }.Concat(Sample.Shims().Bytes).ToArray(), JobPurpose.Plan);
        Assert.Empty(reading.Problems);
        Assert.NotNull(reading.Job);
    }

    [Fact]
    public void Read_ByteOrderMarkAlone_IsAnEmptyFile() =>
        Assert.Contains("the file is empty", JobFile.Read(new byte[] { 0xEF, 0xBB, 0xBF }, JobPurpose.Plan).Problems[0].Found, StringComparison.Ordinal);

    [Theory]
    [InlineData("utf-16")]
    [InlineData("utf-16BE")]
    [InlineData("utf-32")]
    public void Read_OtherEncodings_AreRefused(string encoding)
    {
        Encoding other = Encoding.GetEncoding(encoding);
        byte[] bytes = [.. other.Preamble, .. other.GetBytes(Sample.Shims().Text)];
        Reading.AssertOneLine(Assert.Single(JobFile.Read(bytes, JobPurpose.Plan).Problems));
    }

    [Theory]
    [MemberData(nameof(Places))]
    public void Read_BrokenUtf8_IsRefusedAsAProblem(string place)
    {
        byte[] text = Encoding.UTF8.GetBytes(Sample.Shims().TextWith(place.Replace("~", "", StringComparison.Ordinal), place));
        int at = Array.IndexOf(text, (byte)'~');
        foreach (byte[] broken in Broken)
        {
            byte[] spoilt = [.. text[..at], .. broken, .. text[(at + 1)..]];
            ParsedJob reading = JobFile.Read(spoilt, JobPurpose.Plan);
            Assert.NotEmpty(reading.Problems);
            Assert.All(reading.Problems, Reading.AssertOneLine);
        }
    }

    [Theory]
    [InlineData("\"Bench single\"", "\"\\ud800\"", "$.engine.name")]
    [InlineData("\"Bench single\"", "\"Bench \\udc00 single\"", "$.engine.name")]
    [InlineData("\"id\":\"E1\"", "\"id\":\"\\ud800\"", "$.engine.valves[1].id")]
    [InlineData("\"shimwright-job/1\"", "\"\\ud800\"", "$.format")]
    [InlineData("0.10,\"feel\":\"loose\"", "0.10,\"feel\":\"\\ud800\"", "$.check.readings[0].trials[0].feel")]
    [InlineData("\"clock\":118", "\"clock\":\"\\ud800\"", "$.check.clock")]
    [InlineData("\"redo\":60", "\"redo\":\"90 min\\ud800\"", "$.costs.redo")]
    public void Read_HalfASurrogatePairAsAValue_IsRefused(string text, string spoilt, string path)
    {
        ParsedJob reading = Reading.Of(Sample.Shims().TextWith(text, spoilt), JobPurpose.Plan);
        Assert.Contains(reading.Problems, p => p.Path == path);
        Assert.All(reading.Problems, Reading.AssertOneLine);
    }

    [Theory]
    [InlineData("\"clock\":118", "\"clock\":118,\"\\ud800\":1")]
    [InlineData("\"intake cam\":25", "\"\\ud800\":25")]
    [InlineData("\"intake cam\":25", "\"\\ud800\":25,\"\\udfff\":25")]
    [InlineData("\"repeat\":0.008", "\"\\ud800\":0.008")]
    public void Read_HalfASurrogatePairAsAName_IsRefused(string text, string spoilt)
    {
        ParsedJob reading = Reading.Of(Sample.Shims().TextWith(text, spoilt), JobPurpose.Plan);
        Assert.NotEmpty(reading.Problems);
        Assert.All(reading.Problems, Reading.AssertOneLine);
    }

    [Fact]
    public void Read_TextInAnyScript_IsKept()
    {
        Job job = Reading.Takes(Sample.Shims().Set("$.engine.name", "\"Großer Zweizylinder – двигатель 発動機 \\ud83d\\udd27\""));
        Assert.Equal("Großer Zweizylinder – двигатель 発動機 🔧", job.Engine.Name);
    }
}
