using System.Globalization;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Tables;

/// <summary>One thing that is wrong with a file of lines and columns.</summary>
/// <param name="Line">The line in the file, from 1; 0 where it is about the whole file.</param>
/// <param name="Column">The column, or empty where it is about the whole line.</param>
/// <param name="Found">What was found there.</param>
/// <param name="Allowed">What is allowed there, or what to do.</param>
public sealed record TableProblem(int Line, string Column, string Found, string Allowed)
{
    /// <summary>The problem in one line of text.</summary>
    /// <returns>Line, column, what was found, what is allowed.</returns>
    public override string ToString()
    {
        string where = Line == 0 ? "the file" : string.Create(CultureInfo.InvariantCulture, $"line {Line}");
        return OneLine.Of($"{where}{(Column.Length == 0 ? "" : $", {Column}")}: {Found}; {Allowed}");
    }

    /// <summary>The problems to show, in the order of the lines.</summary>
    internal static IReadOnlyList<TableProblem> First(IReadOnlyCollection<TableProblem> problems) =>
        FirstProblems.OfTable(problems, p => p.Line, (found, next) => new(0, "", found, next));
}
