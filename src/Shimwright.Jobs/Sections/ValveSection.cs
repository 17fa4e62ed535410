using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>One valve as far as it could be read.</summary>
internal sealed record ValveSection(string? Id, int? Cylinder, ValveSide? Side, string? Access, ClearanceBand? Band)
{
    private const int MostCylinders = 64;

    private static readonly Dictionary<string, ValveSide> Sides = new(StringComparer.Ordinal)
    {
        ["intake"] = ValveSide.Intake,
        ["exhaust"] = ValveSide.Exhaust,
    };

    /// <summary>Reads a valve; <paramref name="ids"/> are those of the valves before it.</summary>
    public static ValveSection Read(ObjectMembers o, HashSet<string> ids) => new(
        ReadId(o, ids),
        o.Whole("cylinder", 1, MostCylinders, "Its cylinder.", required: true),
        o.Choice("side", Sides, "Intake or exhaust.", required: true),
        o.Name("access", "What has to be lifted to reach its adjuster.", required: true),
        ReadBand(o));

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
