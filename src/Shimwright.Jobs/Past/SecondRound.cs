using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Past;

/// <summary>The job that follows a re-check that failed: it starts from what the re-check left of every valve, and forgets nothing that was learnt before.</summary>
public static class SecondRound
{
    /// <summary>Starts a second round.</summary>
    /// <param name="sheet">The job whose re-check failed.</param>
    /// <returns>What the new job starts from and the facts that are known already, or what is wrong.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static ParsedSetup Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        WrittenJob first = WrittenSheet.Of(sheet);
        ParsedSetup round = JobSetup.FromRecord(sheet.Setup.Card, first with
        {
            Check = PastCheck.Again(sheet, first, ClockOf(sheet)) with { Blades = first.Check.Blades },
            Rounds = [.. first.Rounds ?? [], .. PastCheck.RoundsOf(sheet, first)],
            Stock = JobTerms.UsesShop(sheet) ? first.Stock! with { Drawer = null } : first.Stock,
            Recheck = null,
        });
        return round.Setup is null ? round : round with { Facts = [.. round.Facts, .. Carried(sheet)] };
    }

    /// <summary>Without usual wear on the card there is no telling what running did: then the round counts as made at the clock of the check.</summary>
    private static double ClockOf(JobSheet sheet) =>
        sheet.Setup.Card.Wear is not null && sheet.Closing is { } closing ? closing.Clock : sheet.Check.Clock;

    private static IEnumerable<JobFact> Carried(JobSheet sheet)
    {
        if (sheet.Newest<LossSuspected>() is { } suspected)
        {
            yield return suspected;
        }

        if (sheet.Engine.Valvetrain.HasShims)
        {
            StockStated stock = JobTerms.Stock(sheet);
            // The shop's drawer has what came out of the engine since the first round was closed.
            yield return stock with { Drawer = stock.FromShop ? [] : Drawer(sheet, stock.Drawer) };
        }
    }

    /// <summary>The drawer after the work: what was taken out of it is gone, what came out of the engine and did not go back lies in it.</summary>
    private static List<ShimsAtHand> Drawer(JobSheet sheet, IReadOnlyList<ShimsAtHand> before)
    {
        List<ShimsAtHand> drawer = [.. before];
        foreach (ShimExchange exchange in DrawerUse.Exchanges(sheet))
        {
            if (exchange.Taken is { } taken)
            {
                int line = drawer.FindIndex(d => d.Count > 0 && d.By == taken.By && Math.Abs(d.Thickness - taken.Thickness) < SameShim);
                if (line >= 0)
                {
                    drawer[line] = drawer[line] with { Count = drawer[line].Count - 1 };
                }
            }

            if (exchange.CameOut is { } old)
            {
                drawer.Add(new(old.Thickness, old.By, 1));
            }
        }

        return [.. drawer.Where(d => d.Count > 0).GroupBy(d => (d.Thickness, d.By, d.Marked)).Select(g => new ShimsAtHand(g.Key.Thickness, g.Key.By, g.Sum(d => d.Count)) { Marked = g.Key.Marked })];
    }

    /// <summary>Thicknesses that are one and the same, mm.</summary>
    private const double SameShim = 1e-6;
}
