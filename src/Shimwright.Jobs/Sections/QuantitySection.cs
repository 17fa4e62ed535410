using Shimwright.Domain.Uncertainty;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>A measured part with its uncertainty: the members "value", "u" and "df".</summary>
internal static class QuantitySection
{
    private const double GreatestUncertainty = 0.2;
    private const double MostDegrees = 1_000_000;

    /// <summary>Reads the part in a member; <paramref name="name"/> is what a budget calls it.</summary>
    public static InputQuantity? Read(ObjectMembers parent, string member, string name, NumberRule rule, string about, bool required) =>
        parent.Object(
            member,
            o =>
            {
                double? value = o.Number("value", rule, "The size, mm.", required: true);
                double? u = o.Number("u", new(0, GreatestUncertainty, Measure.Length), "Its standard uncertainty, mm.", required: true);
                double? degrees = o.Number("df", new(InputQuantity.FewestDegrees, MostDegrees), "Degrees of freedom of that uncertainty; left out where it does not rest on a few readings.");
                return value is { } x && u is { } uncertainty ? new InputQuantity(name, x, uncertainty, degrees ?? double.PositiveInfinity) : null;
            },
            about,
            required);
}
