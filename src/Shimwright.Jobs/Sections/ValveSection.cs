using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>One valve as far as it could be read.</summary>
internal sealed record ValveSection(string? Id, int? Cylinder, ValveSide? Side, string? Access, ClearanceBand? Band,
    CamEvents? Events, IReadOnlyList<OffHeel> Also)
{
    private const int MostIntervals = 2;

    internal static readonly Dictionary<string, ValveSide> Sides = new(StringComparer.Ordinal)
    {
        ["intake"] = ValveSide.Intake,
        ["exhaust"] = ValveSide.Exhaust,
    };

    /// <summary>A valve of which no more is known than what it lies behind.</summary>
    public static ValveSection Behind(string access) => new(null, null, null, access, null, null, []);

    /// <summary>Reads a valve; <paramref name="ids"/> are those of the valves before it.</summary>
    public static ValveSection Read(ObjectMembers o, HashSet<string> ids) => new(
        ReadId(o, ids),
        o.Whole("cylinder", 1, LayoutCard.MostCylinders, "Its cylinder.", required: true),
        o.Choice("side", Sides, "Intake or exhaust.", required: true),
        o.Name("access", "What has to be lifted to reach its adjuster; \"none\" where nothing is.", required: true),
        ReadBand(o),
        o.Object("events", e => EventsSection.Read(e, "opens", "closes"), "When this valve opens and closes, where it differs from its side."),
        [.. o.List("alsoOffHeel", ReadInterval, (0, MostIntervals), "Further intervals off its heel, such as a decompressor's.").Select(i => i.Value)]);

    private static Interval? ReadInterval(ObjectMembers o)
    {
        double? from = o.Number("from", new(-720, 720), "Crank degrees after its own cylinder's compression TDC.", required: true);
        double? length = o.Number("length", new(0, 720, LeastIsLeftOut: true), "Crank degrees.", required: true);
        return from is { } f && length is { } l ? new Interval(new OffHeel(f, l)) : null;
    }

    private sealed record Interval(OffHeel Value);

    private static string? ReadId(ObjectMembers o, HashSet<string> ids)
    {
        string? id = o.Name("id", "The valve's name.", required: true);
        if (id is not null && !ids.Add(id))
        {
            o.Problem("id", $"\"{id}\" stands there already", "each valve needs an id of its own");
        }

        return id;
    }

    private static ClearanceBand? ReadBand(ObjectMembers o)
    {
        double[]? limits = o.Numbers(
            "band", new(ClearanceBand.Lowest, ClearanceBand.Highest, Measure.Length), (2, 2), "The maker's cold limits, lower and upper, mm.", required: true);
        if (limits is not [double low, double high])
        {
            return null;
        }

        if (low >= high)
        {
            o.Problem("band", $"found {NumberRule.Text(low)} to {NumberRule.Text(high)}", "the lower limit comes first, and the upper one is greater");
            return null;
        }

        if (!ClearanceBand.IsWideEnough(low, high))
        {
            o.Problem("band", $"found a width of {NumberRule.Text(high - low)} mm", $"a band is at least {NumberRule.Text(ClearanceBand.Narrowest)} mm wide");
            return null;
        }

        return new ClearanceBand(low, high);
    }
}
