using System.Globalization;
using Shimwright.Jobs.Results;

namespace Shimwright.Cli.Answers;

/// <summary>A clearance from depths with its budget.</summary>
internal static class DepthTable
{
    public static void Write(Page page, DepthRow depth)
    {
        page.Heading(depth.Against is { } known
            ? $"{depth.Valve} by its depth against {known} ({page.UnitName})"
            : $"{depth.Valve} by its depth under the {depth.Camshaft} ({page.UnitName})");
        page.Rows<DepthPartRow>(
            depth.Parts,
            new("Part", p => p.Part),
            new("Size", p => page.Lengths.Fine(p.Value)),
            new("Uncertainty", p => page.Lengths.Fine(p.U)),
            new("Degrees", p => Degrees(p.Degrees), Shown.Wide),
            new("Counts", p => p.Sensitivity.ToString("+0.0;-0.0", CultureInfo.InvariantCulture)),
            new("Contribution", p => page.Lengths.Fine(p.Contribution)),
            new("Share", p => p.Share.ToString("0.00", CultureInfo.InvariantCulture)));
        string factor = depth.K.ToString("0.00", CultureInfo.InvariantCulture);
        page.Bullets(
        [
            $"Clearance {page.Lengths.Fine(depth.Clearance)}, standard uncertainty {page.Lengths.Fine(depth.U)}, effective degrees of freedom {Degrees(depth.Degrees)}.",
            $"95 %: {page.Lengths.Fine(depth.Low)} to {page.Lengths.Fine(depth.High)} (coverage factor {factor}).",
            .. depth.Against is { } other ? [$"Saddle, journal, base circle and play are the same for {other}: they cancel."] : Array.Empty<string>(),
            .. depth.Correlations.Count > 0
                ? [$"What it shares with other depths makes their errors go together: {string.Join(", ", depth.Correlations.Select(r => $"{r.Valve} {r.R.ToString("0.00", CultureInfo.InvariantCulture)}"))}."]
                : Array.Empty<string>(),
        ]);
    }

    private static string Degrees(double? degrees) => degrees?.ToString("0.#", CultureInfo.InvariantCulture) ?? "no bound";
}
