using System.Globalization;
using Shimwright.Bench.Jobs;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Jobs.Readings;

namespace Shimwright.Pages.Jobs.Depths;

/// <summary>What the page on one valve's depth shows: its camshaft, what is known of that, and the clearance that follows.</summary>
public sealed class DepthView
{
    private static readonly (string Member, string Words)[] Names =
        [("saddle", "saddle"), ("journal", "journal"), ("baseCircle", "base circle"), ("play", "play"), ("bucket", "bucket"), ("shim", "shim"), ("clearance", "clearance")];

    internal DepthView(JobSheet sheet, JobAnswer answer, ReadingRound round, RoundValve valve)
    {
        Valve = valve;
        Entry = valve.Readings.LastOrDefault(r => r.Fact is DepthTaken);
        Camshaft = Taken?.Camshaft ?? valve.Valve.Access;
        Stated = sheet.Camshafts.FirstOrDefault(c => c.Camshaft == Camshaft);
        IsStated = JobSheetFile.CamshaftNames(sheet).Contains(Camshaft);
        Rows = [.. (answer.Estimate.Depths ?? []).Where(d => d.Valve == valve.Valve.Id)];
        Felt = [.. round.Valves.Where(v => v.IsRead && !v.IsBlind && v.Valve.Id != valve.Valve.Id && v.Valve.Access == valve.Valve.Access)];
    }

    public RoundValve Valve { get; }

    /// <summary>The camshaft over the valve.</summary>
    public string Camshaft { get; }

    /// <summary>What was measured at it here; null where nothing was, or the job came with it.</summary>
    public CamshaftFact? Stated { get; }

    /// <summary>Whether its sizes, or a known valve under it, are there.</summary>
    public bool IsStated { get; }

    /// <summary>The depth of this valve that is there already, or null.</summary>
    public JobEntry? Entry { get; }

    /// <summary>The same, as what it says.</summary>
    public DepthTaken? Taken => Entry?.Fact as DepthTaken;

    /// <summary>Whether the valve is the one against which the others are taken.</summary>
    public bool IsKnownValve => Stated is CamshaftCompared known && known.Valve == Valve.Valve.Id;

    /// <summary>The clearance by depth, with its budget.</summary>
    public IReadOnlyList<DepthRow> Rows { get; }

    /// <summary>Valves under the same camshaft that a blade could feel.</summary>
    public IReadOnlyList<RoundValve> Felt { get; }

    /// <summary>What to take care of.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Loosen the camshaft caps evenly, a little at a time. A camshaft lifted at one end breaks.",
        "Keep caps, shims and buckets in their places. Clean and deburr the parting face.",
        "After refitting, check the timing marks and torque. Turn the engine twice by hand and feel every valve again.",
    ];

    /// <summary>Whether a depth gives a clearance on this engine: the cam acts on the bucket itself.</summary>
    public static bool IsPossible(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return sheet.Engine.Valvetrain.Adjuster is not (Adjuster.FingerFollower or Adjuster.Screw);
    }

    /// <summary>What a clearance by depth means.</summary>
    public static string Meaning(DepthRow row, ClearanceBand band, LengthStyle lengths)
    {
        ArgumentNullException.ThrowIfNull(row);
        ArgumentNullException.ThrowIfNull(band);
        ArgumentNullException.ThrowIfNull(lengths);
        return row switch
        {
            { High: < 0 } => $"The valve is held open by about {lengths.Clearance(-row.Clearance)} {lengths.UnitName}. Do not run the engine.",
            { Low: < 0 } => "The valve is tight and may be held open. Do not run the engine.",
            _ when row.High < band.Low => $"The valve seats but is tight. Its lower limit is {lengths.Clearance(band.Low)} {lengths.UnitName}.",
            _ when row.Low > band.High => $"The clearance is over the upper limit of {lengths.Clearance(band.High)} {lengths.UnitName}. Check it with a blade.",
            _ => $"The limits are {lengths.Band(band)} {lengths.UnitName}. The estimate above uses this depth and every other reading.",
        };
    }

    /// <summary>A number of a budget.</summary>
    public static string Number(double? value, string format) => value is { } v ? v.ToString(format, CultureInfo.InvariantCulture) : "no limit";

    /// <summary>Problems of the job file under the names of this page's fields.</summary>
    public static IReadOnlyList<JobProblem> Of(IReadOnlyList<JobProblem> problems) => [.. problems.Select(p => p with { Path = FieldOf(p.Path) })];

    private static string FieldOf(string path) => !path.StartsWith("$.", StringComparison.Ordinal) ? path
        : Names.FirstOrDefault(n => path.Contains("." + n.Member, StringComparison.Ordinal)).Words is { } part
            ? part + (path.EndsWith(".u", StringComparison.Ordinal) ? ", uncertainty" : "")
            : path.Contains(".depth", StringComparison.Ordinal) ? "depth" : "camshaft";
}
