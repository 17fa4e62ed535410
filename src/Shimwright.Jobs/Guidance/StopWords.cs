using System.Globalization;
using Shimwright.Domain.CrankStops;

namespace Shimwright.Jobs.Guidance;

/// <summary>Crank stops and rules of thumb in words for the bench.</summary>
public static class StopWords
{
    private const double Same = 1e-6;

    /// <summary>What to do to get to a stop.</summary>
    /// <param name="stop">The stop.</param>
    /// <param name="isFirst">Whether it is the first one.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="turning">How the crank turns, in the card's words, or null.</param>
    /// <returns>One sentence.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="stop"/> or <paramref name="layout"/> is null.</exception>
    public static string Of(CrankStop stop, bool isFirst, CrankLayout layout, string? turning)
    {
        ArgumentNullException.ThrowIfNull(stop);
        ArgumentNullException.ThrowIfNull(layout);
        string direction = turning is null ? "in running direction" : $"in running direction ({turning})";
        string turn = isFirst
            ? stop.Turn == 0
                ? $"start at {Datum(layout)}"
                : $"from {Datum(layout)} turn {Degrees(stop.Turn)} {direction}"
            : $"turn {Degrees(stop.Turn)} {direction}";
        // What the way there names is not said twice.
        bool isNamed = isFirst && stop.Turn == 0 && IsAt(0, layout.FiresAt(First(layout)));
        string place = Place(stop.Angle, layout, isNamed ? First(layout) : null);
        return place.Length == 0 ? turn : $"{turn}: {place}";
    }

    /// <summary>What stands at 0 crank degrees, which is cylinder 1 on compression unless the firing angles say otherwise.</summary>
    /// <param name="layout">The layout.</param>
    /// <returns>A place to start from, in words.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="layout"/> is null.</exception>
    public static string Datum(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        int first = First(layout);
        double fires = layout.FiresAt(first);
        return IsAt(0, fires)
            ? $"cylinder {Number(first)} on compression TDC"
            : $"the zero of the firing angles, {Degrees(fires)} before cylinder {Number(first)} on compression TDC,";
    }

    /// <summary>Rules of thumb that hold for a layout, each in a sentence; none where none holds.</summary>
    /// <param name="layout">The layout.</param>
    /// <returns>The sentences.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="layout"/> is null.</exception>
    public static IReadOnlyList<string> Rules(CrankLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        List<string> rules = [];
        if (ThumbRules.Companions(layout) is { Count: > 0 } pairs)
        {
            rules.Add($"Running mates {string.Join(", ", pairs.Select(p => $"{p.One}-{p.Other}"))}: "
                + "when a valve of one is fully open, the same valve of the other may be set.");
        }

        if (layout.Valves.Count > 2 && ThumbRules.PairSum(layout) is { } sum)
        {
            rules.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"Rule of {sum}: with the valves numbered as listed, front to rear, when valve k is fully open set valve {sum} - k."));
        }

        if (ThumbRules.OwnCylinderRuleHolds(layout))
        {
            rules.Add("Cylinder by cylinder: as its exhaust valve begins to open set the intake; as its intake valve, past full lift, begins to close set the exhaust.");
        }

        return rules;
    }

    /// <summary>Which cylinders stand at a dead centre here, or which mark this is.</summary>
    private static string Place(double angle, CrankLayout layout, int? named)
    {
        List<string> words = [];
        string[] compression = [.. layout.FiringOrder.Where(c => c != named && IsAt(angle, layout.FiresAt(c))).Select(Number)];
        string[] overlap = [.. layout.FiringOrder.Where(c => IsAt(angle, layout.FiresAt(c) + 360)).Select(Number)];
        if (compression.Length > 0)
        {
            words.Add($"cylinder {string.Join(" and ", compression)} now at TDC on compression");
        }

        if (overlap.Length > 0)
        {
            words.Add($"cylinder {string.Join(" and ", overlap)} at TDC between exhaust and intake");
        }

        words.AddRange(layout.Valves
            .Where(v => words.Count == 0 && layout.LetGoOf(v).Any(a => IsAt(angle, a)))
            .GroupBy(v => v.Cylinder, v => v.Id)
            .Select(v => $"{Degrees(CrankAngle.Turn(layout.FiresAt(v.Key), angle))} past cylinder {Number(v.Key)}'s TDC on compression, where the decompressor has let go of {string.Join(", ", v)}"));
        if (words.Count == 0 && layout.Marks.Any(m => IsAt(angle, m)))
        {
            words.Add("at the further mark");
        }

        return string.Join(", ", words);
    }

    private static int First(CrankLayout layout) => layout.FiringOrder.OrderBy(layout.FiresAt).ThenBy(c => c).First();

    private static bool IsAt(double angle, double wanted) =>
        Math.Min(CrankAngle.Turn(angle, wanted), CrankAngle.Turn(wanted, angle)) < Same;

    private static string Number(int cylinder) => cylinder.ToString(CultureInfo.InvariantCulture);

    private static string Degrees(double degrees) => string.Create(CultureInfo.InvariantCulture, $"{degrees:0.#} degrees");
}
