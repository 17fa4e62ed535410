using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Rechecking;

/// <summary>
/// The shims at hand after the work: what went into the engine is gone from the drawer, what came out and went nowhere else lies in
/// it. A shim that neither the drawer nor another valve had was bought.
/// </summary>
public static class DrawerAfterWork
{
    /// <summary>A shim measured anew differs from what it was noted as by so much at most, mm; one that differs by more is another shim.</summary>
    private const double SameShim = 0.02;

    private const double SameSize = 1e-6;

    /// <summary>The stock after the work.</summary>
    /// <param name="before">The stock that the work was planned with.</param>
    /// <param name="changes">What was done.</param>
    /// <returns>The stock.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="before"/> or <paramref name="changes"/> is null.</exception>
    public static Stock Of(Stock before, IReadOnlyList<Adjustment> changes)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(changes);
        List<DrawerShims> drawer = [.. before.Drawer, .. changes.Select(c => c.From).OfType<Thickness>().Select(t => new DrawerShims(t, 1))];
        // The shims that are noted just as they lay there are taken first, so that one measured anew does not take the place of another.
        foreach (Thickness fitted in changes.Select(c => c.To).OfType<Thickness>().OrderBy(t => PlaceOf(t, drawer, SameSize) < 0))
        {
            int at = PlaceOf(fitted, drawer, SameSize);
            at = at >= 0 ? at : PlaceOf(fitted, drawer, SameShim);
            if (at >= 0)
            {
                drawer[at] = new(drawer[at].Thickness, drawer[at].Count - 1);
            }
        }

        return before with { Drawer = [.. drawer.Where(d => d.Count > 0)] };
    }

    /// <summary>The place of the shim nearest to one, as it is noted; or of another instrument, for one that was measured anew.</summary>
    private static int PlaceOf(Thickness fitted, List<DrawerShims> drawer, double within)
    {
        bool isAnew = within > SameSize;
        if (isAnew && fitted.By.Name == Instrument.Marked.Name)
        {
            return -1;
        }

        return Enumerable.Range(0, drawer.Count)
            .Where(i => drawer[i].Count > 0 && Off(i) <= within && (drawer[i].Thickness.By.Name != fitted.By.Name) == isAnew)
            .OrderBy(Off).FirstOrDefault(-1);

        double Off(int i) => Math.Abs(drawer[i].Thickness.Millimetres - fitted.Millimetres);
    }
}
