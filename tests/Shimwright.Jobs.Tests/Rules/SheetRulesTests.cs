using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Rules;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Rules;

public class SheetRulesTests
{
    public static TheoryData<string, JobFact, string> Refusals() => new()
    {
        { "no such blade", new BladeTried(SheetPart.Check, "I1", 0, 1, "light"), "above 0" },
        { "blade far above the band", new BladeTried(SheetPart.Check, "I1", 0.9, 1, "light"), "above the middle of the band" },
        { "no leaf", new BladeTried(SheetPart.Check, "I1", 0.1, 0, "light"), "1 to 10" },
        { "no such feel", new BladeTried(SheetPart.Check, "I1", 0.1, 1, "sticky"), "\"loose\"" },
        { "no such valve, trial", new BladeTried(SheetPart.Check, "X9", 0.1, 1, "light"), "I1, E1" },
        { "no such valve, thickness", new ThicknessFound("X9", 2.5, "marked"), "I1, E1" },
        { "no such valve, shim", new ShimFitted("X9", new(2.6, "marked"), new(2.5, "marked")), "I1, E1" },
        { "value far from the band", new ClearanceRead(SheetPart.Check, "I1", 0.9, 0.01), "within 0.5" },
        { "uncertainty of nothing", new ClearanceRead(SheetPart.Check, "I1", 0.1, 0), "0.001" },
        { "clock below 0", new CheckStated(-1, 20), "0 to 10000000" },
        { "too cold", new CheckStated(1, -60), "-40" },
        { "too hot at the re-check", new RecheckStated(500), "150" },
        { "no such cause", new LossSuspected("gremlins"), "ordinary, dust, head-work, head-work-intake, head-work-exhaust, unknown" },
        { "thickness without its point", new ThicknessFound("I1", 262, "marked"), "2.62 meant?" },
        { "no such instrument", new ThicknessFound("I1", 2.62, "eye"), "\"micrometer\"" },
        { "drawer of nothing", new StockStated([new(0.1, "marked", 1)], []), "0.3" },
        { "count below 0", new StockStated([new(2.5, "marked", -1)], []), "0 to 10000" },
        { "sizes that fall", new StockStated([], [new(3, 2, 0.1, 1)]), "the first size" },
        { "price below 0", new StockStated([], [new(2, 3, 0.1, -1)]), "0 to 100000" },
        { "no such access group", new CostsStated(1, 1, 1, 0, new Dictionary<string, double> { ["bonnet"] = 1 }), "intake cam" },
        { "minutes below 0", new CostsStated(-1, 1, 1, 0, new Dictionary<string, double>()), "0 to 100000" },
        { "turns of a shim engine", new ScrewTurned("I1", 0.5), "say from and to" },
        { "shim of no thickness", new ShimFitted("I1", new(2.62, "marked"), new(0, "marked")), "0.3" },
        { "re-check before any change", new ClearanceRead(SheetPart.Recheck, "I1", 0.14, 0.01), "after the work" },
        { "tick before any plan", new StepTicked(FitSteps.Timing, true), "before a plan" },
        { "plan before it can be made", new PlanAccepted([], 1, 1, [], [], []), "has no reading" },
        { "let go of no plan", new PlanReleased(), "nothing to let go" },
        { "open the open", new JobReopened(), "nothing to open again" },
        { "put back what is not discarded", new JobPutBack(), "nothing to put back" },
        { "empty note", new JobNoted(" \n"), "write something" },
        { "long note", new JobNoted(new string('x', 4001)), "4001 characters" },
        { "long finding", new JobClosed(118, new string('x', 4001), "", ""), "4001 characters" },
        { "clock that ran back", new JobClosed(117, "", "", ""), "does not run back" },
        { "clock too far", new JobClosed(1e8, "", "", ""), "10000000" },
        { "undo of nothing", new Undone(Ledger.Action(77)), "taken back already" },
        { "undo of the empty action", new Undone(Guid.Empty), "taken back already" },
    };

    public static TheoryData<string, Func<double, JobFact>> Numbers() => new()
    {
        { "blade", n => new BladeTried(SheetPart.Check, "I1", n, 1, "light") },
        { "value", n => new ClearanceRead(SheetPart.Check, "I1", n, 0.01) },
        { "uncertainty", n => new ClearanceRead(SheetPart.Check, "I1", 0.1, n) },
        { "clock", n => new CheckStated(n, 20) },
        { "temperature", n => new CheckStated(118, n) },
        { "temperature of the re-check", n => new RecheckStated(n) },
        { "thickness", n => new ThicknessFound("I1", n, "marked") },
        { "drawer", n => new StockStated([new(n, "marked", 1)], []) },
        { "from", n => new StockStated([], [new(n, 3, 0.1, 1)]) },
        { "to", n => new StockStated([], [new(2, n, 0.1, 1)]) },
        { "step", n => new StockStated([], [new(2, 3, n, 1)]) },
        { "price", n => new StockStated([], [new(2, 3, 0.1, n)]) },
        { "redo", n => new CostsStated(n, 1, 1, 0, new Dictionary<string, double>()) },
        { "swap", n => new CostsStated(1, n, 1, 0, new Dictionary<string, double>()) },
        { "worth", n => new CostsStated(1, 1, n, 0, new Dictionary<string, double>()) },
        { "disturb", n => new CostsStated(1, 1, 1, 0, new Dictionary<string, double>(), n) },
        { "horizon", n => new CostsStated(1, 1, 1, n, new Dictionary<string, double>()) },
        { "access", n => new CostsStated(1, 1, 1, 0, new Dictionary<string, double> { ["intake cam"] = n }) },
        { "what came out", n => new ShimFitted("I1", new(n, "marked"), new(2.5, "marked")) },
        { "what went in", n => new ShimFitted("I1", new(2.6, "marked"), new(n, "marked")) },
        { "turns", n => new ScrewTurned("I1", n) },
        { "chance", n => Ledger.ShimsMeasured().ItsPlan() with { ChanceAll = n } },
        { "minutes", n => Ledger.ShimsMeasured().ItsPlan() with { Minutes = n } },
        { "closing clock", n => new JobClosed(n, "", "", "") },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public void ProblemsOf_WrongFact_SaysWhatIsAllowed(string what, JobFact fact, string words)
    {
        IReadOnlyList<JobProblem> problems = SheetRules.ProblemsOf(Ledger.Shims().Sheet, fact);
        Assert.True(problems.Any(p => p.ToString().Contains(words, StringComparison.Ordinal)), $"{what}: {string.Join('\n', problems)}");
        Assert.All(problems, p => Assert.True(p.Path.Length > 0 && p.Found.Length > 0 && p.Allowed.Length > 0));
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void ProblemsOf_NoNumber_IsRefused(string what, Func<double, JobFact> fact)
    {
        Assert.NotEmpty(what);
        JobSheet sheet = Ledger.ShimsMeasured().Sheet;
        foreach (double number in (double[])[double.NaN, double.PositiveInfinity, double.NegativeInfinity])
        {
            JobProblem problem = Assert.Single(SheetRules.ProblemsOf(sheet, fact(number)));
            Assert.Equal(("found no number", "a finite number is needed"), (problem.Found, problem.Allowed));
        }
    }

    [Fact]
    public void ProblemsOf_ThicknessOnScrews_IsRefused() => Refuses(Ledger.Screws(), new ThicknessFound("I1", 2.5, "marked"), "screws has none");

    [Fact]
    public void ProblemsOf_ShimOnScrews_IsRefused() =>
        Refuses(Ledger.Screws(), new ShimFitted("I1", new(2.6, "marked"), new(2.5, "marked")), "say turns");

    [Fact]
    public void ProblemsOf_TooManyTurns_IsRefused() => Refuses(Ledger.Screws(), new ScrewTurned("I1", 51), "50");

    [Fact]
    public void ProblemsOf_FactsThatAreRight_AreNone()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        Takes(ledger, ledger.ItsPlan());
        Takes(ledger, new StepTicked(FitSteps.Timing, true));
        Takes(ledger, new ShimFitted("E1", new(2.75, "micrometer"), new(2.70, "calliper")));
        Takes(ledger, new RecheckStated(21));
        Takes(ledger, new ClearanceRead(SheetPart.Recheck, "E1", 0.22, 0.01));
        Takes(ledger, new JobNoted("done"));
        Takes(ledger, new JobClosed(118, "", "", ""));
        Takes(ledger, new JobReopened());
        Takes(ledger, new PlanReleased());
    }

    [Fact]
    public void ProblemsOf_StepOfNoPlan_NamesTheSteps() => Refuses(Ledger.ShimsPlanned(), new StepTicked("open/boot", true), "open/exhaust cam");

    [Fact]
    public void ProblemsOf_AnythingOnAClosedJob_AsksToOpenItFirst()
    {
        Ledger ledger = Ledger.ShimsMeasured();
        Guid reading = ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01));
        Guid closing = ledger.Add(new JobClosed(118, "", "", ""));
        Refuses(ledger, new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01), "open it again");
        Refuses(ledger, new JobClosed(118, "", "", ""), "open it again");
        Refuses(ledger, new Undone(reading), "open it again");
        Takes(ledger, new Undone(ledger.Add(new JobNoted("a word later"))));
        Takes(ledger, new Undone(closing));
        Assert.Null(ledger.Sheet.Closing);
        Takes(ledger, new Undone(reading));
    }

    [Fact]
    public void ProblemsOf_UndoOfAnUndo_IsAllowedOnce()
    {
        Ledger ledger = Ledger.Shims();
        Guid undo = ledger.Add(new Undone(ledger.Add(new ThicknessFound("I1", 2.5, "marked"))));
        Takes(ledger, new Undone(undo));
        Refuses(ledger, new Undone(undo), "taken back already");
    }

    [Fact]
    public void ProblemsOf_UndoThatLeavesTheSheetNoJob_IsRefused()
    {
        // The setup says 80 degrees, which adds 0.12 mm; corrected to 20, -0.33 is within 0.5 of the band's middle, and warm it is not.
        Ledger ledger = Ledger.ImportedJob(Samples.Sample.Shims().Remove("$.recheck")
            .Set("$.engine.temperature.kappaMmPerC", "0.002").Set("$.check.temperatureC", "80").Text);
        Guid cold = ledger.Add(new CheckStated(118, 20));
        Takes(ledger, new ClearanceRead(SheetPart.Check, "I1", -0.33, 0.01));
        Refuses(ledger, new Undone(cold), "within 0.5");
    }

    [Theory]
    [InlineData("a valve left out", "0 lines for valve \"I1\"")]
    [InlineData("a valve twice", "2 lines for valve \"I1\"")]
    [InlineData("a valve of another engine", "no valve of this engine")]
    [InlineData("a group of another engine", "no access group")]
    [InlineData("a fit without a shim", "not with what")]
    [InlineData("a turn of a shim", "not with what")]
    [InlineData("no such action", "not with what")]
    public void ProblemsOf_PlanThatIsNone_IsRefused(string what, string words)
    {
        Ledger ledger = Ledger.ShimsMeasured();
        PlanAccepted plan = ledger.ItsPlan();
        Assert.Equal(["I1", "E1"], plan.Valves.Select(v => v.Valve));
        PlanAccepted wrong = what switch
        {
            "a valve left out" => plan with { Valves = [plan.Valves[1]] },
            "a valve twice" => plan with { Valves = [plan.Valves[0], .. plan.Valves] },
            "a valve of another engine" => plan with { Stranded = [new("X9", "none")] },
            "a group of another engine" => plan with { Opened = ["bonnet"] },
            "a fit without a shim" => plan with { Valves = [plan.Valves[0], plan.Valves[1] with { To = null }] },
            "a turn of a shim" => plan with { Valves = [plan.Valves[0], plan.Valves[1] with { Action = "turn", Turns = 1 }] },
            _ => plan with { Valves = [plan.Valves[0], plan.Valves[1] with { Action = "hope" }] },
        };
        Refuses(ledger, wrong, words);
    }

    [Fact]
    public void ProblemsOf_Camshafts_HaveTheRulesOfTheFile()
    {
        CamshaftMeasured sizes = new("intake cam", new(11.482, 0.004, 4), new(22.965, 0.002, 9), new(28.01, 0.003));
        Refuses(Ledger.Screws(), sizes, "where the cam acts on the bucket itself");
        Ledger ledger = Ledger.Shims();
        Refuses(ledger, new DepthTaken(SheetPart.Check, "I1", "intake cam", new(14.1, 0.005)), "no camshaft of this check");
        Refuses(ledger, sizes with { Saddle = new(400, 0.004) }, "saddle");
        Refuses(ledger, new CamshaftCompared("intake cam", "X9", new(14.1, 0.005), new(0.15, 0.007)), "no valve of this engine");
        Guid measured = ledger.Add(sizes);
        Takes(ledger, new DepthTaken(SheetPart.Check, "I1", "intake cam", new(14.1, 0.005)));
        // The depth has nothing to rest on without its camshaft.
        Refuses(ledger, new Undone(measured), "no camshaft of this check");
        Refuses(ledger, new CamshaftCompared("intake cam", "I1", new(14.1, 0.005), new(0.15, 0.007)), "its clearance is known already");
    }

    private static void Refuses(Ledger ledger, JobFact fact, string words) =>
        Assert.Contains(SheetRules.ProblemsOf(ledger.Sheet, fact), p => p.ToString().Contains(words, StringComparison.Ordinal));

    private static void Takes(Ledger ledger, JobFact fact)
    {
        Assert.Empty(SheetRules.ProblemsOf(ledger.Sheet, fact).Select(p => p.ToString()));
        ledger.Add(fact);
    }
}
