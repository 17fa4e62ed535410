using Shimwright.Jobs.Members;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests;

public class SyntaxTests
{
    [Theory]
    [InlineData("{\n  \"format\": \"shimwright-job/1\",\n  \"engine\": {\"name\": }\n}", "line 3, column 22: ", "name")]
    [InlineData("{\"format\": \"shimwright-job/1\",}", "line 1, column 31: ", "format")]
    [InlineData("{\"format\": 'shimwright-job/1'}", "line 1, column 12: ", "format")]
    [InlineData("{\n\"check\": {\"clock\": 0118}}", "line 2, column 21: ", "clock")]
    [InlineData("{\r\n\"check\": {\"clock\": 1 \"u\": 2}}", "line 2, column 22: ", "clock")]
    [InlineData("{\"a\": 1} {\"b\": 2}", "line 1, column 10: ", "a")]
    [InlineData("{\"a\": 1 // why\n}", "line 1, column 9: ", "a")]
    [InlineData("{\"a\": NaN}", "line 1, column 7: ", "a")]
    public void Read_SyntaxError_NamesLineColumnAndTheLastMemberRead(string text, string place, string last)
    {
        Reading.Refuses(text, "$", place);
        Reading.Refuses(text, "$", $"the last member read is \"{last}\"");
    }

    [Fact]
    public void Read_SyntaxErrorBehindAccents_CountsColumnsInCharacters() =>
        Reading.Refuses("{\"name\": \"Übergröße\", }", "$", "line 1, column 23: ");

    [Fact]
    public void Read_SyntaxErrorBeforeAnyMember_SaysThatNoneWasRead()
    {
        Reading.Refuses("{format: 1}", "$", "line 1, column 2: ");
        Reading.Refuses("{format: 1}", "$", "no member was read before it");
    }

    [Fact]
    public void Read_TextThatEndsTooEarly_NamesTheLastMemberRead()
    {
        string text = Sample.Shims().Text;
        string cut = text[..text.IndexOf("\"temperatureC\"", StringComparison.Ordinal)];
        Reading.Refuses(cut, "$", "the last member read is \"clock\"");
    }

    [Theory]
    [InlineData("")]
    [InlineData(" \r\n\t ")]
    public void Read_EmptyFile_IsRefusedInWordsForPeople(string text)
    {
        Reading.Refuses(text, "$", "the file is empty");
        Assert.DoesNotContain("isFinalBlock", Assert.Single(Reading.Of(text).Problems).ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("total 96\ndrwxr-xr-x 21\n", "line 1, column 2: ")]
    [InlineData("{\"a\":\n nul\n}", "line 2, column 5: ")]
    [InlineData("{\"a\": false\u0007}", "line 1, column ")]
    public void Read_WordThatIsNoLiteral_IsRefusedInOneLine(string text, string place)
    {
        JobProblem problem = Assert.Single(Reading.Of(text).Problems);
        Assert.Contains(place, problem.ToString(), StringComparison.Ordinal);
        Reading.AssertOneLine(problem);
    }

    [Fact]
    public void Read_WordThatIsNoLiteralAndNeverEnds_IsShortened()
    {
        JobProblem problem = Assert.Single(Reading.Of("{\"a\": t" + new string('r', 100_000)).Problems);
        Assert.InRange(problem.ToString().Length, 10, 1000);
    }

    [Theory]
    [InlineData('[', ']')]
    [InlineData('{', '}')]
    public void Read_DeepNesting_IsRefused(char open, char close)
    {
        const int Depth = 100_000;
        string step = open == '{' ? "{\"a\":" : "[";
        string text = $"{{\"a\":{string.Concat(Enumerable.Repeat(step, Depth))}1{new string(close, Depth)}}}";
        JobProblem problem = Assert.Single(Reading.Of(text).Problems);
        Assert.Equal("$", problem.Path);
        Reading.AssertOneLine(problem);
    }

    [Fact]
    public void Read_FileLargerThanAnyJob_IsRefusedBeforeItIsParsed()
    {
        ParsedJob reading = JobFile.Read(new byte[JobFile.LargestBytes + 1], JobPurpose.Estimate);
        Assert.Contains("33554433 bytes", Assert.Single(reading.Problems).ToString(), StringComparison.Ordinal);
    }
}
