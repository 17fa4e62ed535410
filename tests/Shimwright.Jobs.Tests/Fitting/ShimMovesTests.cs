using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Fitting;

public class ShimMovesTests
{
    private static readonly EstimateRow Tight = new(0.05, 0.01, 0.03, 0.07, 0.1, "out");

    [Fact]
    public void InOrder_NoShimMoves_KeepsTheOrderOfTheEngine() =>
        Assert.Equal(["I1", "E1"], Names(Of(("I1", null), ("E1", null))));

    /// <summary>Whose own shim nobody waits for comes first, then the valve that gives it one.</summary>
    [Fact]
    public void InOrder_Chain_BeginsAtTheValveWhoseShimIsLeftOver()
    {
        IReadOnlyList<ShimMove> moves = Of(("I1", null), ("I2", "I1"), ("I3", "I2"));
        Assert.Equal(["I3", "I2", "I1"], Names(moves));
        Assert.Equal([null, "I3", "I2"], moves.Select(m => m.LaidAsideFor));
        Assert.Equal(["I2", "I1", null], moves.Select(m => m.MustWaitFor));
    }

    [Fact]
    public void InOrder_Ring_BeginsAtTheFirstListedAndNamesEveryValveOnce()
    {
        IReadOnlyList<ShimMove> moves = Of(("I1", "I3"), ("I2", "I1"), ("I3", "I2"));
        Assert.Equal(["I1", "I3", "I2"], Names(moves));
        Assert.All(moves, m => Assert.NotNull(m.LaidAsideFor));
    }

    /// <summary>Carried out in that order by hand, every shim is out of its valve before it goes into another.</summary>
    [Fact]
    public void InOrder_TheFourOfTheDemo_HandsEveryShimOn()
    {
        PlanAccepted plan = Ledger.ImportedJob(Demo.Text("02-worn-four.json")).ItsPlan();
        IReadOnlyList<ShimMove> moves = ShimMoves.InOrder(plan);
        Assert.Equal(plan.Changes.Select(c => c.Valve).Order(), Names(moves).Order());
        Assert.Contains(moves, m => m.MustWaitFor is not null);
        foreach ((int at, ShimMove move) in moves.Index())
        {
            if (move.MustWaitFor is { } giver && Names(moves).Take(at).All(v => v != giver))
            {
                Assert.Equal(giver, moves[at + 1].Row.Valve);
            }
        }
    }

    private static IEnumerable<string> Names(IEnumerable<ShimMove> moves) => moves.Select(m => m.Row.Valve);

    private static IReadOnlyList<ShimMove> Of(params (string Valve, string? Giver)[] changes) => ShimMoves.InOrder(new PlanAccepted(
        [], 1, 1, [],
        [.. changes.Select(c => new PlanRow(
            c.Valve, Tight, "fit", new(2.5, "marked"), new(2.4, "marked", c.Giver is null ? "drawer" : "engine", c.Giver), null, 0.9, null, ""))],
        []));
}
