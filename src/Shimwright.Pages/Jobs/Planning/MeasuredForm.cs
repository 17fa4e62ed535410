using System.Globalization;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Planning;

/// <summary>What the micrometer said of one shim of a size.</summary>
internal sealed class MeasuredForm : ActionForm
{
    private const double SameSize = 1e-6;

    public string? Thickness { get; set; }

    /// <summary>The shims at hand with one of the size told by what it measures, bought for it where none lies there; null, with problems, where what was typed is none.</summary>
    public StockStated? Read(StockStated stock, double marked, bool isBought, LengthStyle lengths, List<JobProblem> problems)
    {
        if (lengths.Read(Thickness, "thickness").Note(problems) is not { } found)
        {
            return null;
        }

        if (Math.Abs(found - marked) > MarkedShim.SameShim + SameSize)
        {
            problems.Add(new("thickness", $"found {lengths.Shim(found)} {lengths.UnitName} on a shim marked {lengths.Shim(marked)}", "look at the mark again; enter another size among the shims at hand"));
            return null;
        }

        List<ShimsAtHand> drawer = [.. stock.Drawer];
        int at = drawer.FindIndex(d => d.Count > 0 && d.By != Micrometer && Math.Abs(d.Thickness - marked) < SameSize);
        if (!isBought && at < 0)
        {
            problems.Add(new("thickness", $"no shim marked {lengths.Shim(marked)} is at hand any more", "look at the plan again"));
            return null;
        }

        // What a calliper said of it is no mark.
        double? mark = isBought || drawer[at].By == ByMark ? marked : drawer[at].Marked;
        if (!isBought)
        {
            drawer[at] = drawer[at] with { Count = drawer[at].Count - 1 };
        }

        return stock with { Drawer = [.. drawer.Where(d => d.Count > 0), new(found, Micrometer, 1) { Marked = mark }] };
    }

    /// <summary>A size in an address.</summary>
    public static string InAddress(double millimetres) => millimetres.ToString("R", CultureInfo.InvariantCulture);

    private const string Micrometer = "micrometer", ByMark = "marked";
}
