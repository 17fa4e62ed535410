using System.Globalization;
using Shimwright.Bench;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Drawer;
using Shimwright.Pages.Engines;

namespace Shimwright.Pages.Labels;

/// <summary>Something that can have a label.</summary>
/// <param name="Key">By what it is picked.</param>
/// <param name="Name">Its name.</param>
internal sealed record LabelChoice(string Key, string Name);

/// <summary>Gathers what is to be printed.</summary>
/// <param name="bench">The bench.</param>
/// <param name="home">What stands before a page's path in a code.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class LabelDesk(IBench bench, string home, CancellationToken cancel)
{
    /// <summary>More labels than a roll has.</summary>
    public const int Most = 500;

    private IReadOnlyList<ShimLot>? _lots;
    private LengthStyle? _lengths;

    /// <summary>What can have a label: sizes that are in stock, engines in use.</summary>
    public async Task<IReadOnlyList<LabelChoice>> ChoicesAsync(LabelKind kind)
    {
        if (kind == LabelKind.Engines)
        {
            return [.. (await bench.Engines.ListAsync(null, 0, Most, cancel)).Select(e => new LabelChoice(KeyOf(e.Id), e.Name))];
        }

        LengthStyle lengths = await LengthsAsync();
        return [.. (await LotsAsync()).Where(l => l.Count > 0).Take(Most).Select(l => ChoiceOf(l, lengths))];
    }

    /// <summary>What is to be printed: all that can be, or what was picked, an engine that is retired and a size that has run out among it. What is there no more is left out.</summary>
    public async Task<IReadOnlyList<LabelChoice>> ChosenAsync(LabelQuery query, IReadOnlyList<LabelChoice> choices)
    {
        if (query.Picked is null)
        {
            return choices;
        }

        Dictionary<string, LabelChoice> known = choices.ToDictionary(c => c.Key);
        if (query.Kind == LabelKind.Drawer)
        {
            LengthStyle lengths = await LengthsAsync();
            known = (await LotsAsync()).Select(l => ChoiceOf(l, lengths)).ToDictionary(c => c.Key);
        }
        else
        {
            foreach (string key in query.Picked.Where(p => !known.ContainsKey(p)).Distinct().ToArray())
            {
                if (Guid.TryParseExact(key, "D", out Guid id) && await bench.Engines.FindAsync(id, cancel) is { } engine)
                {
                    known.Add(key, new(key, engine.Name));
                }
            }
        }

        return [.. query.Picked.Distinct().Where(known.ContainsKey).Select(p => known[p])];
    }

    /// <summary>The labels of what was chosen.</summary>
    public Task<IReadOnlyList<Label>> OfAsync(LabelKind kind, IEnumerable<LabelChoice> chosen) =>
        kind == LabelKind.Drawer ? OfDrawerAsync(chosen.Select(c => c.Key)) : OfEnginesAsync(chosen.Select(c => c.Key));

    /// <summary>By what a size is picked.</summary>
    public static string KeyOf(ShimSize size) => string.Create(CultureInfo.InvariantCulture, $"{size.Diameter}-{size.Thickness}-{size.By}");

    /// <summary>By what an engine is picked.</summary>
    public static string KeyOf(Guid engine) => engine.ToString("D", CultureInfo.InvariantCulture);

    private static LabelChoice ChoiceOf(ShimLot lot, LengthStyle lengths) =>
        new(KeyOf(lot.Size), $"{DrawerWords.NameOf(lot.Size, lengths)}, {DrawerWords.Diameter(lot.Size.Diameter, lengths)}{(lot.Place.Length > 0 ? $", {lot.Place}" : "")}");

    private async Task<IReadOnlyList<ShimLot>> LotsAsync() => _lots ??= await bench.Drawer.LotsAsync(cancel);

    private async Task<LengthStyle> LengthsAsync() => _lengths ??= LengthStyle.Of((await bench.Settings.CurrentAsync(cancel)).Settings);

    private async Task<IReadOnlyList<Label>> OfDrawerAsync(IEnumerable<string> keys)
    {
        LengthStyle lengths = await LengthsAsync();
        Dictionary<string, ShimLot> lots = (await LotsAsync()).ToDictionary(l => KeyOf(l.Size));
        return [.. keys.Where(lots.ContainsKey).Select(k => Of(lots[k], lengths))];
    }

    private Label Of(ShimLot lot, LengthStyle lengths)
    {
        LabelLine thickness = new($"{lengths.Shim(lot.Size.ThicknessMm)} {lengths.UnitName}", 2.2, IsBold: true);
        string diameter = DrawerWords.Diameter(lot.Size.Diameter, lengths), by = $"by {DrawerWords.By(lot.Size.By)}";
        LabelLine[] place = lot.Place.Length > 0 ? [new(lot.Place, 1.2, IsBold: true)] : [];
        return new(home + DrawerWords.AddressOf(lot.Size), [thickness, new(diameter), new(by), .. place], [thickness, new(string.Join(", ", [diameter, by, .. place.Select(p => p.Text)]))]);
    }

    private async Task<IReadOnlyList<Label>> OfEnginesAsync(IEnumerable<string> keys)
    {
        LengthStyle lengths = await LengthsAsync();
        List<Label> labels = [];
        foreach (string key in keys)
        {
            if (Guid.TryParseExact(key, "D", out Guid id) && await bench.Engines.FindAsync(id, cancel) is { } engine)
            {
                labels.Add(Of(engine, lengths));
            }
        }

        return labels;
    }

    private Label Of(StoredEngine engine, LengthStyle lengths)
    {
        Domain.Engines.Engine card = engine.Card.Engine;
        int cylinders = card.Valves.Max(v => v.Cylinder);
        LabelLine name = new(engine.Name, 1.6, IsBold: true, MayBreak: true);
        string valves = string.Create(CultureInfo.InvariantCulture, $"{card.Valves.Count} valves, {cylinders} {(cylinders == 1 ? "cylinder" : "cylinders")}");
        (string Whose, string Band)[] limits = [.. CardWords.Limits(card.Valves, lengths)];
        // Limits that differ from valve to valve do not fit: the card has them.
        LabelLine[] bands = limits.All(l => l.Whose.StartsWith("All ", StringComparison.Ordinal))
            ? [.. limits.Select(l => new LabelLine($"{char.ToUpperInvariant(l.Whose[4])}{l.Whose[5..]} {l.Band} {lengths.UnitName}"))]
            : [];
        LabelLine[] shims = engine.Details.ShimDiameter is { } diameter ? [new($"Shims {DrawerWords.Diameter(ShimSize.Micrometres(diameter), lengths)}")] : [];
        return new($"{home}/engines/{KeyOf(engine.Id)}", [name, new(valves), .. bands, .. shims], [name, new(valves)]);
    }
}
