using Shimwright.Jobs.Fitting;

namespace Shimwright.Bench.Marks;

/// <summary>A shim of which mark and size are both known, and who knows them.</summary>
/// <param name="Job">The job; null for a shim that was measured in the drawer.</param>
/// <param name="Engine">Its engine's name; blank where there is no job.</param>
/// <param name="At">When the job was begun or the shim measured, UTC.</param>
/// <param name="Shim">The shim.</param>
public sealed record JobMark(Guid? Job, string Engine, DateTime At, MarkedShim Shim);

/// <summary>Marks against measured sizes, out of the jobs and the drawer's ledger.</summary>
public interface IMarks
{
    /// <summary>How many jobs are looked through, the newest first.</summary>
    const int MostJobs = 500;

    /// <summary>The shims of the newest jobs that know any, and those that were measured in the drawer, the newest first.</summary>
    /// <param name="cancel">Stops it.</param>
    /// <returns>The shims.</returns>
    Task<IReadOnlyList<JobMark>> ListAsync(CancellationToken cancel = default);
}
