using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Drawer;

/// <summary>Shims of the drawer that are measured.</summary>
internal sealed partial class DrawerStore
{
    private const string Marked = "marked", Micrometer = "micrometer";

    /// <inheritdoc/>
    public Task<DrawerResult> MeasureAsync(ShimSize marked, double thickness, string? place, DrawerStamp stamp, CancellationToken cancel = default)
    {
        var measured = new ShimCount(ShimSize.Of(marked.DiameterMm, thickness, Micrometer), 1, place);
        return WriteAsync([measured], stamp, (ledger, counts, promised) =>
        {
            int free = counts.GetValueOrDefault(marked) - promised.GetValueOrDefault(marked).Count;
            if (marked.By != Marked || free < 1)
            {
                return [new("thickness", $"no shim of {DrawerRules.Mm(marked.ThicknessMm)} known by its mark is free", "count them first")];
            }

            if (!new MarkedShim("", marked.ThicknessMm, measured.Size.ThicknessMm).IsOne)
            {
                return [new("thickness", $"found {DrawerRules.Mm(measured.Size.ThicknessMm)} for a mark of {DrawerRules.Mm(marked.ThicknessMm)}",
                    $"that is more than {DrawerRules.Mm(MarkedShim.SameShim)} off and another shim, or a slip; measure again, or count both sizes")];
            }

            ledger.Write(RowOf(new(marked, 1), -1, ShimReason.Measured, stamp));
            ledger.Write(RowOf(measured, 1, ShimReason.Measured, stamp));
            return [];
        }, cancel);
    }

    /// <summary>Takes both entries of a measuring back.</summary>
    private async Task<DrawerResult> UnmeasureAsync(BenchContext look, ShimMoveRow move, DrawerStamp stamp, CancellationToken cancel)
    {
        List<ShimMoveRow> both = await look.ShimMoves.AsNoTracking().Where(m => m.Action == move.Action).OrderBy(m => m.Number).ToListAsync(cancel);
        return await WriteAsync([], stamp, (ledger, counts, promised) =>
        {
            if (ledger.IsUndone(move.Number))
            {
                return [new("entry", $"entry {move.Number} was taken back already", "load the page again")];
            }

            ShimSize size = SizeOf(both.Single(m => m.Change > 0));
            if (counts.GetValueOrDefault(size) - promised.GetValueOrDefault(size).Count < 1)
            {
                return [new JobProblem("entry", $"the shim of {DrawerRules.Mm(size.ThicknessMm)} was promised to a job or used since", "let that plan go first, or count what there is")];
            }

            foreach (ShimMoveRow entry in both)
            {
                ledger.Write(Opposite(entry, stamp));
            }

            return [];
        }, cancel);
    }
}
