using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Marks;

/// <summary>Where marks and measured sizes are found together.</summary>
public static class MarkRules
{
    /// <summary>What stands in the facts of a job that knows a shim's mark.</summary>
    public const string Marked = "\"marked\"";

    /// <summary>What stands in the facts of a job that knows a shim's size by the micrometer.</summary>
    public const string Measured = "\"micrometer\"";

    /// <summary>The shims of a job.</summary>
    /// <param name="job">The job.</param>
    /// <param name="engine">Its engine's name.</param>
    /// <param name="startedAt">When it was begun, UTC.</param>
    /// <param name="sheet">Its sheet.</param>
    /// <returns>The shims.</returns>
    public static IEnumerable<JobMark> OfJob(Guid job, string engine, DateTime startedAt, JobSheet sheet) =>
        MarkedShims.Of(sheet).Select(m => new JobMark(job, engine, startedAt, m));

    /// <summary>The shims that were measured in the drawer.</summary>
    /// <param name="entries">The entries of measurings that were not taken back, in order.</param>
    /// <returns>The shims.</returns>
    public static IEnumerable<JobMark> InDrawer(IEnumerable<LedgerEntry> entries) => entries.GroupBy(e => e.Action).Select(g => new JobMark(
        null, "", g.First().At, new("", g.Single(e => e.Change < 0).Size.ThicknessMm, g.Single(e => e.Change > 0).Size.ThicknessMm)));
}
