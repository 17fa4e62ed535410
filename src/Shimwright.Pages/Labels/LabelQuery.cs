using System.Globalization;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Labels;

/// <summary>What is to be printed on which sheet, as the address says it.</summary>
/// <param name="Kind">What the labels are of.</param>
/// <param name="Layout">The sheet.</param>
/// <param name="Begin">The label to begin at, from 1: those before it are used up.</param>
/// <param name="HasFrame">Whether the edges of the labels are printed.</param>
/// <param name="Picked">The keys of those that are wanted; null for all.</param>
public sealed record LabelQuery(LabelKind Kind, LabelLayout Layout, int Begin, bool HasFrame, IReadOnlyList<string>? Picked)
{
    /// <summary>More do not go into an address.</summary>
    public const int MostPicked = 150;

    /// <summary>Those that are wanted, where not all are.</summary>
    public const string OnlyPicked = "picked";

    /// <summary>The page of the labels.</summary>
    public string Page => PageOf(Kind);

    /// <summary>The page of labels of a kind.</summary>
    /// <param name="kind">The kind.</param>
    /// <returns>Its address.</returns>
    public static string PageOf(LabelKind kind) => kind == LabelKind.Drawer ? "/drawer/labels" : "/engines/labels";

    /// <summary>Reads what was asked; what cannot be is as usual and listed with the rule.</summary>
    /// <param name="kind">What the labels are of.</param>
    /// <param name="value">The value of a name in the address, or null; several between commas.</param>
    /// <param name="problems">Where what is wrong is put.</param>
    /// <returns>The query.</returns>
    public static LabelQuery Read(LabelKind kind, Func<string, string?> value, ICollection<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(value);
        ArgumentNullException.ThrowIfNull(problems);
        LabelLayout layout = LabelLayout.Usual;
        if (value("layout") is { Length: > 0 } named)
        {
            layout = LabelLayout.Named(named) ?? layout;
            if (layout.Id != named)
            {
                problems.Add(new("layout", $"found \"{named}\"", "choose a sheet of the list"));
            }
        }

        double? begin = TypedNumber.Plain(value("begin"), "begin", needed: false).Note(problems);
        if (begin is { } asked && !(asked >= 1 && asked <= layout.PerSheet && asked == Math.Floor(asked)))
        {
            problems.Add(new("begin", $"found {Times.Exact(asked)}", layout.IsRoll ? "enter 1: a roll has one label" : string.Create(CultureInfo.InvariantCulture, $"enter a whole number from 1 to {layout.PerSheet}")));
            begin = null;
        }

        string[]? picked = value("pick")?.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (picked?.Length > MostPicked)
        {
            problems.Add(new("pick", string.Create(CultureInfo.InvariantCulture, $"found {picked.Length} picked"), string.Create(CultureInfo.InvariantCulture, $"pick {MostPicked} at most, or print all")));
            picked = picked[..MostPicked];
        }

        string? what = value("what");
        return new(kind, layout, (int)(begin ?? 1), value("frame") is { Length: > 0 }, what == OnlyPicked ? picked ?? [] : what is null ? picked : null);
    }

    /// <summary>The place of a label, the labels of all sheets counted.</summary>
    /// <param name="index">Which label, from 0.</param>
    /// <returns>Its place, from 0.</returns>
    public int PlaceOf(int index) => Begin - 1 + index;

    /// <summary>How many sheets so many labels take.</summary>
    /// <param name="labels">How many labels.</param>
    /// <returns>How many sheets.</returns>
    public int SheetsFor(int labels) => labels == 0 ? 0 : (PlaceOf(labels - 1) / Layout.PerSheet) + 1;

    /// <summary>The labels of one sheet, and the query that prints these alone.</summary>
    /// <typeparam name="T">What is known of a label.</typeparam>
    /// <param name="all">All labels.</param>
    /// <param name="sheet">Which sheet, from 1.</param>
    /// <returns>The labels and the query.</returns>
    public (IReadOnlyList<T> Labels, LabelQuery Query) OnSheet<T>(IReadOnlyList<T> all, int sheet) =>
        ([.. all.Where((_, k) => PlaceOf(k) / Layout.PerSheet == sheet - 1)], sheet == 1 ? this : this with { Begin = 1 });

    /// <summary>The same question at the address of a file.</summary>
    /// <param name="end">The end of its name.</param>
    /// <param name="sheet">Which sheet, from 1; null for all.</param>
    /// <returns>The address.</returns>
    public string FileAt(string end, int? sheet = null)
    {
        List<string> parts = [$"layout={Layout.Id}"];
        if (Begin > 1)
        {
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"begin={Begin}"));
        }

        if (HasFrame)
        {
            parts.Add("frame=1");
        }

        if (Picked is not null)
        {
            parts.Add($"what={OnlyPicked}&pick={string.Join(',', Picked.Select(Uri.EscapeDataString))}");
        }

        if (sheet is { } one)
        {
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"sheet={one}"));
        }

        return $"{Page}.{end}?{string.Join('&', parts)}";
    }
}
