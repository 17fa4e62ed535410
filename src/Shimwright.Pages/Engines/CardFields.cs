using System.Globalization;
using System.Text.RegularExpressions;

namespace Shimwright.Pages.Engines;

/// <summary>The fields of the card's form: which of them a path of the card belongs to, and how each is labelled.</summary>
internal static partial class CardFields
{
    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["Name"] = "Name",
        ["Valvetrain"] = "How the clearances are adjusted",
        ["Ratio"] = "Ratio",
        ["Pitch"] = "Pitch of the screw",
        ["Kappa"] = "What heat adds to the gaps",
        ["IntakeLow"] = "All intake valves, lower limit",
        ["IntakeHigh"] = "All intake valves, upper limit",
        ["ExhaustLow"] = "All exhaust valves, lower limit",
        ["ExhaustHigh"] = "All exhaust valves, upper limit",
        ["Order"] = "Firing order",
        ["Angles"] = "Firing angles",
        ["Marks"] = "Further marks",
        ["StopsAt"] = "Where the crank may stop",
        ["Ramp"] = "Ramp",
        ["IntakeOpens"] = "Intake opens before top dead centre",
        ["IntakeCloses"] = "Intake closes after bottom dead centre",
        ["ExhaustOpens"] = "Exhaust opens before bottom dead centre",
        ["ExhaustCloses"] = "Exhaust closes after top dead centre",
        ["Turning"] = "How the crank turns",
        ["Clock"] = "What the clock counts",
        ["Interval"] = "Interval between checks",
        ["Loss"] = "Clearance lost in an interval",
        ["Spread"] = "Spread of that loss",
        ["ShimDiameter"] = "Shim diameter",
        ["Thinnest"] = "Thinnest shim there is",
        ["Thickest"] = "Thickest shim there is",
        ["LimitsFrom"] = "Where the limits come from",
        ["CardNotes"] = "Notes on the card",
        ["Notes"] = "Notes on this engine",
    };

    private static readonly Dictionary<string, string> Members = new(StringComparer.Ordinal)
    {
        ["name"] = "Name",
        ["valvetrain"] = "Valvetrain",
        ["ratio"] = "Ratio",
        ["pitch"] = "Pitch",
        ["temperature.kappaMmPerC"] = "Kappa",
        ["valves"] = "Valves[0].Id",
        ["layout"] = "Order",
        ["layout.firingOrder"] = "Order",
        ["layout.firingAngles"] = "Angles",
        ["layout.marks"] = "Marks",
        ["layout.stopsAt"] = "StopsAt",
        ["layout.rampDeg"] = "Ramp",
        ["layout.intake"] = "IntakeOpens",
        ["layout.intake.opensBtdc"] = "IntakeOpens",
        ["layout.intake.closesAbdc"] = "IntakeCloses",
        ["layout.exhaust"] = "ExhaustOpens",
        ["layout.exhaust.opensBbdc"] = "ExhaustOpens",
        ["layout.exhaust.closesAtdc"] = "ExhaustCloses",
        ["layout.turning"] = "Turning",
        ["wear.clock"] = "Clock",
        ["wear.interval"] = "Interval",
        ["wear.lossPerInterval"] = "Loss",
        ["wear.spread"] = "Spread",
    };

    /// <summary>The field behind a path of the card.</summary>
    /// <param name="path">A JSON path that starts at the card.</param>
    /// <param name="rows">The row of the form for each valve of the card.</param>
    public static string FieldOf(string path, IReadOnlyList<int> rows)
    {
        if (ValvePath().Match(path) is { Success: true } valve)
        {
            int row = rows[int.Parse(valve.Groups["v"].Value, CultureInfo.InvariantCulture)];
            string field = valve.Groups["member"].Value switch
            {
                "cylinder" => "Cylinder",
                "side" => "Side",
                "access" => "Access",
                "band[1]" => "High",
                "band" or "band[0]" => "Low",
                _ => "Id",
            };
            return $"Valves[{row}].{field}";
        }

        string member = LastIndex().Replace(path.Replace("$.", "", StringComparison.Ordinal), "");
        return Members.GetValueOrDefault(member, member);
    }

    /// <summary>A field as it is labelled; a valve's fields under its name.</summary>
    public static string LabelOf(string field, CardForm form)
    {
        if (RowField().Match(field) is not { Success: true } row)
        {
            return Labels.GetValueOrDefault(field, field);
        }

        int index = int.Parse(row.Groups["row"].Value, CultureInfo.InvariantCulture);
        if (row.Groups["list"].Value == "Access")
        {
            return index < form.Access.Count ? $"Minutes for {form.Access[index].Name}" : field;
        }

        string? id = index < form.Valves.Count ? form.Valves[index].Id : null;
        string name = string.IsNullOrWhiteSpace(id) ? $"Valve {index + 1}" : id;
        return name + row.Groups["field"].Value switch
        {
            "Cylinder" => ", cylinder",
            "Side" => ", side",
            "Access" => ", to come off",
            "Low" => ", lower limit",
            "High" => ", upper limit",
            _ => ", name",
        };
    }

    [GeneratedRegex(@"^\$\.valves\[(?<v>\d+)\]\.?(?<member>.*)$", RegexOptions.CultureInvariant)]
    private static partial Regex ValvePath();

    [GeneratedRegex(@"\[\d+\]$", RegexOptions.CultureInvariant)]
    private static partial Regex LastIndex();

    [GeneratedRegex(@"^(?<list>Valves|Access)\[(?<row>\d+)\]\.(?<field>\w+)$", RegexOptions.CultureInvariant)]
    private static partial Regex RowField();
}
