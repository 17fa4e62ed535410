using System.Globalization;
using Shimwright.Bench.Texts;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.Drawer;

/// <summary>What may be put into the drawer.</summary>
public static class DrawerRules
{
    /// <summary>The most shims of one size.</summary>
    public const int MostCount = 10_000;

    /// <summary>The smallest diameter, mm.</summary>
    public const double LeastDiameter = 1;

    /// <summary>The greatest diameter, mm.</summary>
    public const double GreatestDiameter = 100;

    /// <summary>The highest price of one.</summary>
    public const double HighestPrice = 1e6;

    /// <summary>The instruments.</summary>
    public static IReadOnlyList<string> Instruments { get; } = ["marked", "calliper", "micrometer"];

    /// <summary>What is wrong with a size and its count.</summary>
    /// <param name="count">The size, how many, where and at what price.</param>
    /// <returns>The problems; the paths are diameter, thickness, by, count, place and price.</returns>
    /// <exception cref="ArgumentNullException">There is no count.</exception>
    public static IReadOnlyList<JobProblem> ProblemsOf(ShimCount count)
    {
        ArgumentNullException.ThrowIfNull(count);
        List<JobProblem> problems = [];
        Note(count.Size.DiameterMm is >= LeastDiameter and <= GreatestDiameter, "diameter", Mm(count.Size.DiameterMm), $"allowed is {Mm(LeastDiameter)} to {Mm(GreatestDiameter)}");
        Note(count.Size.ThicknessMm is >= Thickness.Thinnest and <= Thickness.Thickest, "thickness", Mm(count.Size.ThicknessMm), $"allowed is {Mm(Thickness.Thinnest)} to {Mm(Thickness.Thickest)}");
        Note(Instruments.Contains(count.Size.By), "by", $"\"{count.Size.By}\"", $"allowed is {string.Join(", ", Instruments)}");
        Note(count.Count is >= 0 and <= MostCount, "count", $"{count.Count} shims", $"allowed are 0 to {MostCount} of one size");
        Note(count.Place is null || count.Place.Length <= PlainText.LongestName, "place", $"{count.Place?.Length} characters", $"allowed are {PlainText.LongestName}");
        Note(count.Price is null or (>= 0 and <= HighestPrice), "price", string.Create(CultureInfo.InvariantCulture, $"{count.Price}"), $"allowed is 0 to {HighestPrice:0}");
        return problems;

        void Note(bool isFine, string path, string found, string allowed)
        {
            if (!isFine)
            {
                problems.Add(new(path, $"found {found}", allowed));
            }
        }
    }

    /// <summary>A length as the drawer writes it.</summary>
    /// <param name="length">The length, mm.</param>
    /// <returns>The length with its unit.</returns>
    public static string Mm(double length) => string.Create(CultureInfo.InvariantCulture, $"{length:0.###} mm");
}
