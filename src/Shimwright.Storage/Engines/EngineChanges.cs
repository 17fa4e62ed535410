using Microsoft.EntityFrameworkCore;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Engines;

/// <summary>Counts, in whatever is being saved, what an engine's forecast rests on.</summary>
internal static class EngineChanges
{
    /// <summary>Notes that an engine's forecast no longer holds.</summary>
    public static Task NoteAsync(BenchContext context, Guid engineId, CancellationToken cancel) =>
        context.Engines.Where(e => e.Id == engineId).ExecuteUpdateAsync(s => s.SetProperty(e => e.Changes, e => e.Changes + 1), cancel);
}
