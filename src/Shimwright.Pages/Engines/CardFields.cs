using System.Globalization;
using System.Text.RegularExpressions;

namespace Shimwright.Pages.Engines;

/// <summary>The card's fields by name: which of them a path of the card belongs to, how each is called, and what stands in it.</summary>
internal static partial class CardFields
{
    private static readonly Dictionary<string, CardField> ByPath = CardForm.All
        .SelectMany(f => f.AlsoAt.Append(f.Value.Path).OfType<string>().Select(path => (path, f)))
        .ToDictionary(p => p.path, p => p.f, StringComparer.Ordinal);

    /// <summary>The field behind a path of the card or a member of its details.</summary>
    /// <param name="path">A JSON path that starts at the card.</param>
    /// <param name="form">The form.</param>
    /// <param name="rows">The row of the form for each valve of the card.</param>
    public static string FieldOf(string path, CardForm form, IReadOnlyList<int> rows)
    {
        if (ValvePath().Match(path) is { Success: true } valve)
        {
            int row = rows[int.Parse(valve.Groups["v"].Value, CultureInfo.InvariantCulture)];
            string member = valve.Groups["member"].Value;
            return $"Valves[{row}].{ValveFields.Columns.FirstOrDefault(c => c.Members.Contains(member), ValveFields.Columns[0]).Name}";
        }

        string place = LastIndex().Replace(path.Replace("$.", "", StringComparison.Ordinal), "");
        return place == "valves" ? "Valves[0].Id"
            : form.Access.FindIndex(a => path == $"accessMinutes.{a.Name}") is >= 0 and var access ? $"Access[{access}].Minutes"
            : ByPath.TryGetValue(place, out CardField? field) ? field.Name : place;
    }

    /// <summary>A field as it is labelled; a valve's fields under its name.</summary>
    public static string LabelOf(string field, CardForm form)
    {
        if (RowField().Match(field) is not { Success: true } row)
        {
            return CardForm.All.FirstOrDefault(f => f.Name == field)?.Label ?? field;
        }

        int index = int.Parse(row.Groups["row"].Value, CultureInfo.InvariantCulture);
        if (row.Groups["list"].Value == "Access")
        {
            return index < form.Access.Count ? $"Minutes for {form.Access[index].Name}" : field;
        }

        string name = index < form.Valves.Count && form.Valves[index].IsNamed ? form.Valves[index].Id! : $"Valve {index + 1}";
        return $"{name}, {ValveFields.Columns.First(c => c.Name == row.Groups["field"].Value).Words}";
    }

    /// <summary>Every field with its text, by name.</summary>
    public static IEnumerable<KeyValuePair<string, string>> TextsOf(CardForm form) =>
    [
        .. CardForm.All.Select(f => Text(f.Name, form[f])),
        .. from valve in form.Valves.Index()
           where valve.Item.IsNamed
           from column in ValveFields.Columns
           select Text($"Valves[{valve.Index}].{column.Name}", column.Text(valve.Item)),
        .. form.Access.Index().Select(a => Text($"Access[{a.Index}].Minutes", a.Item.Minutes)),
    ];

    private static KeyValuePair<string, string> Text(string field, string? text) => new(field, text?.Trim() ?? "");

    [GeneratedRegex(@"^\$\.valves\[(?<v>\d+)\]\.?(?<member>.*)$", RegexOptions.CultureInvariant)]
    private static partial Regex ValvePath();

    [GeneratedRegex(@"\[\d+\]$", RegexOptions.CultureInvariant)]
    private static partial Regex LastIndex();

    [GeneratedRegex(@"^(?<list>Valves|Access)\[(?<row>\d+)\]\.(?<field>\w+)$", RegexOptions.CultureInvariant)]
    private static partial Regex RowField();
}
