namespace Shimwright.Pages.Engines;

/// <summary>What differs between the card as it is kept and as it stands in the fields.</summary>
internal static class CardDifference
{
    /// <summary>The fields that differ, with what is kept and what was typed; a valve is known by its row.</summary>
    public static IReadOnlyList<(string Label, string Kept, string Mine)> Between(CardForm kept, CardForm mine)
    {
        var here = CardFields.TextsOf(mine).ToDictionary(f => f.Key, f => f.Value, StringComparer.Ordinal);
        var there = CardFields.TextsOf(kept).ToDictionary(f => f.Key, f => f.Value, StringComparer.Ordinal);
        return [.. there.Keys.Union(here.Keys)
            .Where(f => there.GetValueOrDefault(f, "") != here.GetValueOrDefault(f, ""))
            .Select(f => (CardFields.LabelOf(f, there.ContainsKey(f) ? kept : mine), there.GetValueOrDefault(f, ""), here.GetValueOrDefault(f, "")))];
    }
}
