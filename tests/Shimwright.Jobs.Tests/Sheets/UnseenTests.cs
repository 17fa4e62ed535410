using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Sheets;

/// <summary>What another device wrote in between, and whether it has to be seen first.</summary>
public class UnseenTests
{
    private static readonly ThicknessFound Found = new("I1", 2.62, "marked");
    private static readonly ClearanceRead Read = new(SheetPart.Check, "I1", 0.14, 0.01);
    private static readonly ClearanceRead ReadAgain = new(SheetPart.Recheck, "E1", 0.22, 0.01);
    private static readonly ShimFitted Fitted = new("E1", new(2.75, "marked"), new(2.7, "marked"));
    private static readonly StepTicked Ticked = new(FitSteps.Timing, true);
    private static readonly PlanAccepted Plan = new([], 0.9, 60, [], [], []);
    private static readonly JobClosed Closed = new(119, "", "", "");

    public static TheoryData<string, JobFact, JobFact, bool> Pairs() => new()
    {
        { "two readings add up", Read, Read with { Value = 0.15 }, false },
        { "readings of both rounds add up", ReadAgain, Read, false },
        { "notes add up", new JobNoted("a"), new JobNoted("b"), false },
        { "another thickness of the same valve", Found, Found with { Thickness = 2.6 }, true },
        { "the same thickness", Found, Found with { }, false },
        { "the thickness of another valve", Found, Found with { Valve = "E1", Thickness = 2.7 }, false },
        { "another clock", new CheckStated(1, 20), new CheckStated(2, 20), true },
        { "another cause", new LossSuspected("dust"), new LossSuspected("ordinary"), true },
        { "the same stock in lists of its own", new StockStated([new(2.5, "marked", 1)], []), new StockStated([new(2.5, "marked", 1)], []), false },
        { "another stock", new StockStated([new(2.5, "marked", 1)], []), new StockStated([new(2.5, "marked", 2)], []), true },
        { "the same plan in lists of its own", Plan, Plan with { Opened = [] }, false },
        { "another plan", Plan, Plan with { Minutes = 61 }, true },
        { "a plan over an unseen reading", Plan, Read, true },
        { "a plan over an unseen thickness", Plan, Found, true },
        { "a plan over an unseen note", Plan, new JobNoted("a"), false },
        { "a plan over a reading of the re-check", Plan, ReadAgain, false },
        { "a reading after an unseen plan", Read, Plan, false },
        { "a plan let go that was let go", new PlanReleased(), new PlanReleased(), false },
        { "a plan let go while shims are fitted", new PlanReleased(), Fitted, true },
        { "a shim fitted by a plan let go", Fitted, new PlanReleased(), true },
        { "a tick by a plan let go", Ticked, new PlanReleased(), true },
        { "the same tick twice", Ticked, Ticked with { }, false },
        { "a tick that was taken back", Ticked, Ticked with { Done = false }, true },
        { "another shim fitted", Fitted, Fitted with { To = new(2.65, "marked") }, true },
        { "a late check reading of a changed valve", Read with { Valve = "E1" }, Fitted, true },
        { "a re-check before an unseen change", ReadAgain, Fitted, true },
        { "a reading of another valve than the changed one", Read, Fitted, false },
        { "a closing over a re-check", Closed, ReadAgain, true },
        { "a closing over a tick", Closed, Ticked, true },
        { "a closing over a note", Closed, new JobNoted("a"), false },
        { "a closing over another closing", Closed, Closed with { By = "someone" }, true },
        { "an opening over a closing", new JobReopened(), Closed, true },
    };

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Unseen_FactOfAnotherDevice_IsAConflictWhereItHasToBeSeenFirst(string what, JobFact added, JobFact unseen, bool conflicts)
    {
        Assert.NotEmpty(what);
        Ledger ledger = Ledger.Shims();
        ledger.Add(unseen, "tablet");
        Assert.Equal(conflicts ? 1 : 0, ledger.Sheet.Unseen([new JobNoted("x"), added], 0).Count);
        Assert.Empty(ledger.Sheet.Unseen([added], 1));
    }

    [Fact]
    public void Unseen_UndoOfAReadingUnderAPlan_IsAConflict()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        Guid reading = ledger.Add(Read, "tablet");
        int seen = ledger.Sheet.Last;
        PlanAccepted plan = ledger.ItsPlan();
        Guid undo = ledger.Add(new Undone(reading), "tablet");
        JobEntry entry = Assert.Single(ledger.Sheet.Unseen([plan], seen));
        Assert.Equal(new Undone(reading), entry.Fact);

        // Taken back and brought back: it comes from another device all the same, and the newest of the two stands.
        ledger.Add(new Undone(undo), "tablet");
        Assert.Equal(new Undone(undo), Assert.Single(ledger.Sheet.Unseen([plan], seen)).Fact);
    }

    [Fact]
    public void Unseen_FactThatWasTakenBackAgain_IsNone()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new JobNoted("x"), "tablet");
        Guid found = ledger.Add(Found with { Thickness = 2.5 }, "tablet");
        Assert.Single(ledger.Sheet.Unseen([Found], 1));
        ledger.Add(new Undone(found), "tablet");
        Assert.Equal([new Undone(found)], ledger.Sheet.Unseen([Found], 1).Select(e => e.Fact));
        Assert.Empty(ledger.Sheet.Unseen([Found with { Valve = "E1" }], 1));
    }
}
