using System.Globalization;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Jobs.Advising;

/// <summary>Where the next thing is done, and how it is said on a page.</summary>
internal static class NextLinks
{
    /// <summary>What pays, in the order in which it can be done: while valves are still to be felt the camshafts are on, and what needs none lifted comes first.</summary>
    public static IEnumerable<NextRow> InOrder(JobSheet sheet, NextResult next) =>
        JobStages.Of(sheet) == JobStage.Measure ? next.Next.OrderBy(n => n.Access is not null) : next.Next;

    /// <summary>The page on which it is done.</summary>
    public static string To(StoredJob job, NextRow row)
    {
        string at = row.Valve is { } valve ? $"?valve={Uri.EscapeDataString(valve)}" : "";
        string readings = $"/jobs/{job.Summary.Id}/{(JobAnswer.IsAtRecheck(job.Sheet) ? "recheck" : JobAnswer.IsAtDryFit(job.Sheet) ? "dry" : "measure")}{at}";
        return row.Do switch
        {
            "blade" when row.Leaves == 1 => $"{readings}&blade={row.Blades[0].ToString(CultureInfo.InvariantCulture)}",
            "blade" or "bucket" => $"{readings}",
            "depth" => $"/jobs/{job.Summary.Id}/depth{at}",
            "dryFit" => $"/jobs/{job.Summary.Id}/dry",
            "micrometer" when row.Shim?.Source == "engine" => $"/jobs/{job.Summary.Id}/shims{at}",
            "micrometer" when row.Shim is { } shim && !JobTerms.UsesShop(job.Sheet) =>
                $"/jobs/{job.Summary.Id}/plan?measure={shim.Thickness.ToString("R", CultureInfo.InvariantCulture)}&from={shim.Source}#measure",
            "micrometer" when row.Shim is { Source: "drawer" } lying =>
                $"/drawer/shim?job={job.Summary.Id}&thickness={ShimSize.Micrometres(lying.Thickness).ToString(CultureInfo.InvariantCulture)}&by={lying.By}#measure",
            "micrometer" => "/drawer",
            _ => $"/jobs/{job.Summary.Id}/plan",
        };
    }

    /// <summary>What the tap says.</summary>
    public static string Tap(NextRow row) => row.Do switch
    {
        "blade" or "bucket" => $"Go to {row.Valve}",
        "depth" => "Enter the depth",
        "dryFit" => "Feel it dry",
        _ => "Enter the thickness",
    };

    /// <summary>What it takes.</summary>
    public static string Takes(NextRow row) => row.Takes < 1 ? "Takes less than a minute." : $"Takes about {Times.Minutes(row.Takes)}.";

    /// <summary>What to say where nothing more pays at a re-check, and what the tap there says.</summary>
    public static (string Words, string Tap) Ended(VerdictResult verdict)
    {
        string[] fails = [.. verdict.Valves.Where(v => !v.Passes).Select(v => v.Valve)];
        return fails.Length == 0
            ? ("Every valve passes, and nothing more pays.", StageLink.Words(JobStage.Close))
            : ($"{string.Join(", ", fails)} {(fails.Length == 1 ? "does" : "do")} not pass, and nothing more pays.", "Start a second round, or close it as it is.");
    }

    /// <summary>Minutes to the tenth.</summary>
    public static string Number(double minutes) => minutes.ToString("0.0", CultureInfo.InvariantCulture);
}
