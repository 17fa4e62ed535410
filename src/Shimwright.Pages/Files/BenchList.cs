using System.Text;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Tables;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Files;

/// <summary>A list that can be taken along as a file of lines and columns.</summary>
/// <param name="Title">What it is, in a few words.</param>
/// <param name="Template">The address of its file.</param>
/// <param name="Columns">Name and meaning of each column, in order.</param>
/// <param name="Make">Makes the file.</param>
public sealed record BenchList(
    string Title, string Template, IReadOnlyList<(string Name, string About)> Columns, Func<FileAsk, Task<FileMade>> Make)
{
    private const string Table = "text/csv; charset=utf-8";

    /// <summary>Where the file is fetched.</summary>
    public FileAddress Address => new(Template, AccessRules.Look, false, Make);

    /// <summary>A list whose file is made from its columns.</summary>
    /// <param name="title">What it is, in a few words.</param>
    /// <param name="template">The address of its file.</param>
    /// <param name="columns">Its columns.</param>
    /// <param name="rows">Finds its rows; null where there is no such engine, job or person.</param>
    internal static BenchList Of<T>(string title, string template, IReadOnlyList<ListColumn<T>> columns, Func<FileAsk, Task<IEnumerable<T>?>> rows) => Asked(
        title, template, columns, async ask => (await rows(ask), []));

    /// <summary>The same for a list that can be asked for wrongly.</summary>
    internal static BenchList Asked<T>(
        string title, string template, IReadOnlyList<ListColumn<T>> columns, Func<FileAsk, Task<(IEnumerable<T>? Rows, IReadOnlyList<JobProblem> Problems)>> rows) => new(
        title, template, [.. columns.Select(c => (c.Name, c.About))], async ask =>
        {
            (IEnumerable<T>? found, IReadOnlyList<JobProblem> problems) = await rows(ask);
            return new(found is null ? null : new(template[(template.LastIndexOf('/') + 1)..], Table, Encoding.UTF8.GetBytes(ListTable.Write(columns, found))), problems);
        });
}
