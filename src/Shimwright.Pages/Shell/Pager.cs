using System.Globalization;

namespace Shimwright.Pages.Shell;

/// <summary>Which part of a long list is shown; pages count from 1, and one that is not there becomes the nearest that is.</summary>
public sealed class Pager(int count, int perPage, int page)
{
    public int Last { get; } = Math.Max(1, (count + perPage - 1) / perPage);

    public int Page => Math.Clamp(page, 1, Last);

    public int Skip => (Page - 1) * perPage;

    public static int Read(string? text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int page) ? page : 1;
}
