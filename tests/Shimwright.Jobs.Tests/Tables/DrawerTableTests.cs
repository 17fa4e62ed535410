using System.Text;
using System.Text.RegularExpressions;
using Shimwright.Jobs.Tables;

namespace Shimwright.Jobs.Tests.Tables;

public class DrawerTableTests
{
    [Fact]
    public void Read_UnitsCommasAndColumnsInAnyOrder_AreMillimetresToTheMicrometre()
    {
        DrawerReading reading = Read("count;thickness;diameter;by;place;price\n3;2,45;9,48;Micrometer;B4;7,5\n0;0.1 in;9.48;;;\n");
        Assert.Empty(reading.Problems.Select(p => p.ToString()));
        Assert.Equal([new DrawerLine(2, 9.48, 2.45, "micrometer", 3, "B4", 7.5), new DrawerLine(3, 9.48, 2.54, "marked", 0, null, null)], reading.Lines);
    }

    [Fact]
    public void Write_ThenRead_IsTheSameDrawer()
    {
        DrawerLine[] lines = [new(2, 9.48, 2.4156, "micrometer", 3, "shelf B, left", 7.25), new(3, 13, 2.5, "marked", 0, null, null), new(4, 9.48, 2.45, "calliper", 12, "\"front\"", 0)];
        string text = DrawerTable.Write(lines);
        Assert.StartsWith("diameter_mm,thickness_mm,by,count,place,price\r\n9.48,2.416,micrometer,3,", text, StringComparison.Ordinal);
        DrawerReading again = Read(text);
        Assert.Empty(again.Problems);
        Assert.Equal(lines.Select(l => l with { Thickness = Math.Round(l.Thickness, 3) }), again.Lines);
    }

    [Theory]
    [InlineData("-A1")]
    [InlineData("=B2")]
    [InlineData("'front'")]
    [InlineData("'-A1")]
    [InlineData("''")]
    [InlineData("@left")]
    [InlineData("shelf")]
    public void Write_PlaceThatASpreadsheetWouldRun_ComesBackAsItWas(string place)
    {
        string text = DrawerTable.Write([new(2, 9.48, 2.45, "marked", 3, place, null)]);
        Assert.Equal(place, Assert.Single(Read(text).Lines).Place);
        Assert.DoesNotMatch(",[=+@-]", text);
    }

    /// <summary>A spreadsheet takes what begins so for a formula and runs it.</summary>
    [Theory]
    [InlineData("=1+1")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@left")]
    public void Write_PlaceThatBeginsLikeAFormula_IsText(string place)
    {
        string text = DrawerTable.Write([new(2, 9.48, 2.4, "marked", 3, place, 7.5)]);
        Assert.Matches($"^diameter.*\r\n9.48,2.400,marked,3,\"?'{Regex.Escape(place)}\"?,7.5\r\n$", text);
    }

    [Theory]
    [InlineData("diameter,thickness\n9.48,2.4\n", 1, "")]
    [InlineData("diameter,thickness,count\n", 0, "")]
    [InlineData("diameter,thickness,count\n9.48,2.4,\n", 2, "count")]
    [InlineData("diameter,thickness,count\n9.48,2.4,-1\n", 2, "count")]
    [InlineData("diameter,thickness,count\n9.48,2.4,1.5\n", 2, "count")]
    [InlineData("diameter,thickness,count\n9.48,2.4,10001\n", 2, "count")]
    [InlineData("diameter,thickness,count\n0.5,2.4,1\n", 2, "diameter")]
    [InlineData("diameter,thickness,count\n9.48,0.2,1\n", 2, "thickness")]
    [InlineData("diameter,thickness,count\n9.48,thin,1\n", 2, "thickness")]
    [InlineData("diameter,thickness,count,by\n9.48,2.4,1,ruler\n", 2, "by")]
    [InlineData("diameter,thickness,count,price\n9.48,2.4,1,-2\n", 2, "price")]
    [InlineData("diameter,thickness,count\n9.48,2.4,1\n9.48,2.4000001,2\n", 3, "thickness")]
    public void Read_WhatCannotBe_IsNamedWithItsLineAndColumn(string text, int line, string column)
    {
        DrawerReading reading = Read(text);
        Assert.Empty(reading.Lines);
        TableProblem problem = Assert.Single(reading.Problems);
        Assert.Equal((line, column), (problem.Line, problem.Column));
    }

    [Fact]
    public void Read_PlaceTooLong_IsNamed()
    {
        TableProblem problem = Assert.Single(Read($"diameter,thickness,count,place\n9.48,2.4,1,{new string('x', 201)}\n").Problems);
        Assert.Equal((2, "place"), (problem.Line, problem.Column));
    }

    [Fact]
    public void Read_ManyThingsWrong_NamesAllInOrderAndTakesNothing()
    {
        DrawerReading reading = Read("diameter,thickness,count\n9.48,2.4,many\n9.48,245,1\n9.48,2.5,1\n200,2.4,1\n");
        Assert.Empty(reading.Lines);
        Assert.Equal([(2, "count"), (3, "thickness"), (5, "diameter")], reading.Problems.Select(p => (p.Line, p.Column)));
    }

    [Fact]
    public void Read_NumberLongerThanOneIs_IsRefusedAtOnce()
    {
        System.Diagnostics.Stopwatch watch = System.Diagnostics.Stopwatch.StartNew();
        TableProblem problem = Assert.Single(Read($"diameter,thickness,count\n9.48,{new string('1', 200_000)}!,1\n").Problems);
        Assert.Contains("a number has at most 64 characters", problem.Allowed, StringComparison.Ordinal);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 5);
    }

    [Fact]
    public void Read_MoreThingsWrongThanAnybodyReads_StopsAtTwoHundred()
    {
        IReadOnlyList<TableProblem> problems = Read("diameter,thickness,count\n" + string.Concat(Enumerable.Repeat("x,x,x\n", 4000))).Problems;
        Assert.Equal((201, "and more"), (problems.Count, problems[^1].Found));
        Assert.Equal(2, problems[0].Line);
    }

    private static DrawerReading Read(string text) => DrawerTable.Read(Encoding.UTF8.GetBytes(text));
}
