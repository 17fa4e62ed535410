using System.Globalization;
using Shimwright.Pages.Labels;
using Shimwright.Testing.Served;

namespace Shimwright.Pages.Tests.Labels;

public class LabelLayoutTests
{
    public static TheoryData<string> Ids => [.. LabelLayout.All.Select(l => l.Id)];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Labels_OfALayout_LieOnTheirSheetAndNotOnEachOther(string id)
    {
        LabelLayout layout = LabelLayout.Named(id)!;
        LabelBox[] boxes = [.. Enumerable.Range(0, layout.PerSheet).Select(layout.At)];
        Assert.All(boxes, b => Assert.True(b is { X: >= 0, Y: >= 0, Width: > 0, Height: > 0 } && b.Right <= layout.Sheet.Width + 1e-9 && b.Bottom <= layout.Sheet.Height + 1e-9, $"{b} leaves {layout.Sheet}"));
        Assert.All(boxes.SelectMany((a, k) => boxes.Skip(k + 1).Select(b => a.Within(b))), both => Assert.False(both is { Width: > 1e-9, Height: > 1e-9 }));
        // Sheets are cut from the middle: what is left over is alike on both sides.
        Assert.Equal(boxes.Min(b => b.X), layout.Sheet.Width - boxes.Max(b => b.Right), 0.1);
        Assert.Equal(boxes.Min(b => b.Y), layout.Sheet.Height - boxes.Max(b => b.Bottom), 0.1);
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"{layout.First.Width:0.#} × {layout.First.Height:0.#} mm"), layout.Name, StringComparison.Ordinal);
        Assert.NotEmpty(layout.Source);
    }

    /// <summary>The browser takes the size of the page from the stylesheet.</summary>
    [Theory]
    [MemberData(nameof(Ids))]
    public void Stylesheet_ForThePaperOfALayout_HasItsSize(string id)
    {
        LabelLayout layout = LabelLayout.Named(id)!;
        string style = File.ReadAllText(Path.Combine(Repository.Root, "src", "Shimwright.Pages", "wwwroot", "app.css"));
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"@page {layout.Paper} {{ size: {layout.Sheet.Width}mm {layout.Sheet.Height}mm; margin: 0; }}"), style, StringComparison.Ordinal);
        Assert.Contains($".paper-{layout.Paper} {{ page: {layout.Paper}; }}", style, StringComparison.Ordinal);
    }

    [Fact]
    public void All_Layouts_HaveNamesOfTheirOwnAndPapersOfOneSize()
    {
        Assert.True(LabelLayout.All.Count >= 10);
        Assert.Equal(LabelLayout.All.Count, LabelLayout.All.Select(l => l.Id).Distinct().Count());
        Assert.All(LabelLayout.All.GroupBy(l => l.Paper), p => Assert.Single(p.Select(l => l.Sheet).Distinct()));
    }
}
