using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Plans of a job in which a camshaft is out already.</summary>
public class OpenGroupTests
{
    /// <summary>Opening it costs nothing; lifting it another time would, so what is to come counts it as before.</summary>
    [Fact]
    public void Plan_WithAGroupOpen_PaysForItOnlyInWhatIsToCome()
    {
        ShimPlan shut = Planner.Plan(Job(0.10, 0.16, [])).Chosen;
        ShimPlan open = Planner.Plan(Job(0.10, 0.16, ["intake cam"])).Chosen;
        Assert.Equal(["intake cam"], open.Opened);
        Assert.Equal(shut.WorkMinutes - 25, open.WorkMinutes, 1e-9);
        Assert.Equal(shut.ToComeMinutes, open.ToComeMinutes, 1e-9);
    }

    /// <summary>What is left alone under it is seated anew all the same, and the chance says so.</summary>
    [Fact]
    public void Plan_WithAGroupOpen_SeatsAnewWhatItLeavesAlone()
    {
        PlannedValve kept = Planner.Plan(Job(0.125, 0.155, ["intake cam"])).Chosen.Valves[0];
        var request = Job(0.125, 0.155, []);
        double anew = Made.EstimateFor(request).Valves[0].InBandAfter(ClearanceChange.SeatedAnew(Seating.Usual));
        Assert.Equal(ValveAction.Keep, kept.Action);
        Assert.True(kept.IsSeatedAnew);
        Assert.Equal(anew, kept.Chance!.Value, 1e-6);
        Assert.False(Planner.Plan(request).Chosen.Valves[0].IsSeatedAnew);
    }

    /// <summary>The best plan of all choices, each priced by hand: with the group open as with it shut.</summary>
    [Theory]
    [InlineData(0.115)]
    [InlineData(0.120)]
    [InlineData(0.150)]
    public void Plan_WithAGroupOpen_IsTheLeastOfAllChoices(double read)
    {
        PlanRequest request = Job(read, 0.155, ["intake cam"]);
        EngineEstimate estimate = Made.EstimateFor(request);
        var options = new OptionTable(request, estimate);
        var ledger = new PlanLedger(request);
        IEnumerable<ValveOption> Of(int v) => options.Shared[v].Select(s => s.Option).Concat(options.Private[v]).Append(options.Kept[v]).Where(o => !o.IsStranded);
        double least = Of(0).SelectMany(a => Of(1).Select(b => (a, b)))
            .Where(c => c.a.FromValve is null && c.b.FromValve is null)
            .Min(c => ledger.Of([c.a, c.b]) is var tally ? tally.Work + tally.ToCome : 0);
        Assert.Equal(least, Planner.Plan(request).Chosen.Minutes, 1e-6);
    }

    private static PlanRequest Job(double one, double other, string[] open)
    {
        var check = new EngineCheck(
            Made.Engine(Made.Valve("I1", access: "intake cam"), Made.Valve("I2", access: "intake cam")), [Made.Value(one, 0.01), Made.Value(other, 0.01)]);
        return new PlanRequest(
            check, [Made.Measured(2.50), Made.Measured(2.55)],
            new Stock([], [.. Enumerable.Range(0, 9).Select(k => new PurchasableSize(Made.Marked(2.30 + (k * 0.05)), 4))]),
            new PlanCosts(access: new Dictionary<string, double> { ["intake cam"] = 25 }).WithOpen(open));
    }
}
