using System.Globalization;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Drawer;

/// <summary>Shims as they are typed: put in, or counted.</summary>
public sealed class ShimForm : ActionForm
{
    public string? Diameter { get; set; }

    public string? Thickness { get; set; }

    /// <summary>The unit that was chosen for bare numbers; default is the bench's.</summary>
    public string? Unit { get; set; }

    public string? By { get; set; }

    public string? Count { get; set; }

    public string? Place { get; set; }

    public string? Price { get; set; }

    /// <summary>What was typed; null, with problems, where some of it is none.</summary>
    /// <param name="lengths">The unit of bare numbers.</param>
    /// <param name="problems">Gets what is wrong.</param>
    /// <param name="known">The size, where the page is about one.</param>
    public ShimCount? Read(LengthStyle lengths, List<JobProblem> problems, ShimSize? known = null)
    {
        ArgumentNullException.ThrowIfNull(lengths);
        ArgumentNullException.ThrowIfNull(problems);
        ShimSize? size = known;
        if (size is null)
        {
            double? diameter = lengths.In(Unit).Read(Diameter, "diameter").Note(problems);
            double? thickness = lengths.In(Unit).Read(Thickness, "thickness").Note(problems);
            size = IsTooLong(diameter, "diameter", problems) | IsTooLong(thickness, "thickness", problems) || diameter is null || thickness is null
                ? null : ShimSize.Of(diameter.Value, thickness.Value, By ?? "");
        }

        if (!int.TryParse(Count?.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int count))
        {
            problems.Add(new("count", string.IsNullOrWhiteSpace(Count) ? "nothing was entered" : $"found \"{Count.Trim()}\"", $"enter a whole number up to {DrawerRules.MostCount}"));
        }

        double? price = TypedNumber.Plain(Price, "price", needed: false).Note(problems);
        if (problems.Count > 0 || size is not { } found)
        {
            return null;
        }

        var shims = new ShimCount(found, count, string.IsNullOrWhiteSpace(Place) ? known is null ? null : "" : Place.Trim(), price);
        problems.AddRange(DrawerRules.ProblemsOf(shims));
        return problems.Count == 0 ? shims : null;
    }

    /// <summary>What does not fit into whole micrometres is no shim.</summary>
    private static bool IsTooLong(double? length, string path, List<JobProblem> problems)
    {
        bool isTooLong = length is { } mm && Math.Abs(mm) > DrawerRules.GreatestDiameter;
        if (isTooLong)
        {
            problems.Add(new(path, $"found {length?.ToString(CultureInfo.InvariantCulture)} mm", "enter the size of a shim, with its unit where it is not the bench's"));
        }

        return isTooLong;
    }
}
