namespace Shimwright.Pages.Labels;

/// <summary>A sheet as it is printed.</summary>
/// <param name="Layout">Its layout.</param>
/// <param name="HasFrame">Whether the edges of its labels are drawn.</param>
/// <param name="Labels">Its labels.</param>
public sealed record LabelSheet(LabelLayout Layout, bool HasFrame, IReadOnlyList<PlacedLabel> Labels)
{
    /// <summary>Lays labels on sheets.</summary>
    /// <param name="labels">The labels.</param>
    /// <param name="query">Layout, frame, and the place of the first.</param>
    /// <returns>The sheets.</returns>
    public static IReadOnlyList<LabelSheet> Lay(IReadOnlyList<Label> labels, LabelQuery query)
    {
        ArgumentNullException.ThrowIfNull(query);
        using LabelSetter setter = new();
        LabelLayout layout = query.Layout;
        return
        [
            .. labels.Index().GroupBy(l => query.PlaceOf(l.Index) / layout.PerSheet)
                .Select(sheet => new LabelSheet(layout, query.HasFrame, [.. sheet.Select(l => setter.Set(l.Item, layout.At(query.PlaceOf(l.Index) % layout.PerSheet), layout.Printed))])),
        ];
    }
}
