using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs;

/// <summary>A stage of a job as its pages list it.</summary>
internal sealed record StageLink(JobStage Stage, string Name, string Page)
{
    /// <summary>The stages of a job in working order; an engine with screws has no shims to measure.</summary>
    public static IReadOnlyList<StageLink> Of(JobSheet sheet) =>
    [
        new(JobStage.Measure, "Measure", "measure"),
        .. sheet.Engine.Valvetrain.HasShims ? [new StageLink(JobStage.Shims, "Shims", "shims")] : Array.Empty<StageLink>(),
        new(JobStage.Plan, "Plan", "plan"),
        new(JobStage.Fit, "Fit", "fit"),
        new(JobStage.Recheck, "Re-check", "recheck"),
        new(JobStage.Close, "Close", "close"),
    ];

    /// <summary>The address of the page on which the next thing is done.</summary>
    public static string Next(Guid job, JobStage stage) => stage switch
    {
        JobStage.Measure => $"/jobs/{job}/measure",
        JobStage.Shims => $"/jobs/{job}/shims",
        JobStage.Plan => $"/jobs/{job}/plan",
        JobStage.Fit => $"/jobs/{job}/fit",
        JobStage.Recheck => $"/jobs/{job}/recheck",
        JobStage.Close => $"/jobs/{job}/close",
        _ => $"/jobs/{job}/record",
    };

    /// <summary>The next stage on a button.</summary>
    public static string Short(JobStage stage) => stage switch
    {
        JobStage.Measure => "Measure",
        JobStage.Shims => "Enter the shims",
        JobStage.Plan => "See the plan",
        JobStage.Fit => "Fit",
        JobStage.Recheck => "Re-check",
        JobStage.Close => "Close",
        _ => "The record",
    };

    /// <summary>The name of a stage.</summary>
    public static string NameOf(JobStage stage) => stage == JobStage.Recheck ? "Re-check" : stage.ToString();

    /// <summary>The next thing to do, in three or four words.</summary>
    public static string Briefly(JobStage stage) => stage switch
    {
        JobStage.Measure => "Feel the open gaps",
        JobStage.Shims => "Enter the shims",
        JobStage.Plan => "Accept a plan",
        JobStage.Fit => "Carry the plan out",
        JobStage.Recheck => "Feel changed valves again",
        JobStage.Close => "Close the job",
        _ => "Read the record",
    };

    /// <summary>The next thing to do, in words.</summary>
    public static string Words(JobStage stage) => stage switch
    {
        JobStage.Measure => "Feel the gaps that have no reading yet.",
        JobStage.Shims => "Enter the shim found at every valve.",
        JobStage.Plan => "Look at the plan and accept it.",
        JobStage.Fit => "Carry out the plan and tick each step.",
        JobStage.Recheck => "Feel every changed valve again.",
        JobStage.Close => "See the verdict and close the job.",
        _ => "Read or print the record.",
    };
}
