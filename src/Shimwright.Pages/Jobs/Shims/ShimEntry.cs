using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs.Shims;

/// <summary>A size that is offered for one tap.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="Why">Why it is offered, or nothing.</param>
public sealed record LikelySize(double Thickness, string Why = "");

/// <summary>Entering the shims found, one valve after the other: whose turn it is and what is likely there.</summary>
public sealed class ShimEntry
{
    /// <summary>The distance at which sizes are commonly sold, mm; common practice, no source.</summary>
    private const double Step = 0.05;

    /// <summary>How many sizes are offered on either side.</summary>
    private const int Reach = 4;

    private ShimEntry(JobSheet sheet, string? asked, ThicknessFound? lastTime)
    {
        string[] valves = [.. sheet.Engine.Valves.Select(v => v.Id)];
        string[] missing = [.. valves.Where(v => sheet.FoundAt(v) is null)];
        Missing = missing;
        Valve = valves.FirstOrDefault(v => v == asked) ?? (missing.Length > 0 ? missing[0] : null);
        Known = Valve is null ? null : sheet.FoundAt(Valve);
        ThicknessFound? last = sheet.Newest<ThicknessFound>();
        By = Known?.By ?? last?.By ?? "marked";
        Sizes = [.. Likely(Known ?? lastTime ?? last, lastTime)];
        Done = valves.Length - Missing.Count;
        Of = valves.Length;
    }

    /// <summary>The valve whose turn it is; null where all are known and none was asked for.</summary>
    public string? Valve { get; }

    /// <summary>What is entered for it already, or null.</summary>
    public ThicknessFound? Known { get; }

    /// <summary>The instrument that is likely: the one used last.</summary>
    public string By { get; }

    /// <summary>Marked sizes that are likely, thinnest first.</summary>
    public IReadOnlyList<LikelySize> Sizes { get; }

    /// <summary>Valves without a shim, in the engine's order.</summary>
    public IReadOnlyList<string> Missing { get; }

    /// <summary>How many valves have one.</summary>
    public int Done { get; }

    /// <summary>How many valves there are.</summary>
    public int Of { get; }

    /// <summary>Looks at a job.</summary>
    /// <param name="sheet">The job.</param>
    /// <param name="asked">The valve asked for, or null for the next one that is empty.</param>
    /// <param name="lastTime">From a valve to what was left in it the last time the engine was here, or null.</param>
    /// <returns>Whose turn it is.</returns>
    public static ShimEntry For(JobSheet sheet, string? asked, Func<string, ThicknessFound?>? lastTime = null)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        string? valve = new ShimEntry(sheet, asked, null).Valve;
        return new(sheet, asked, valve is null ? null : lastTime?.Invoke(valve));
    }

    private static IEnumerable<LikelySize> Likely(ThicknessFound? about, ThicknessFound? lastTime)
    {
        if (about is null)
        {
            return [];
        }

        double middle = Math.Round(about.Thickness / Step) * Step;
        IEnumerable<double> sizes = Enumerable.Range(-Reach, (2 * Reach) + 1).Select(k => Math.Round(middle + (k * Step), 2));
        return sizes.Append(lastTime is { By: "marked" } left ? left.Thickness : Math.Round(middle, 2)).Distinct()
            .Where(s => s >= Shimwright.Domain.Shims.Thickness.Thinnest && s <= Shimwright.Domain.Shims.Thickness.Thickest)
            .Order().Select(s => new LikelySize(s, lastTime?.Thickness == s ? "left last time" : ""));
    }
}
