using Shimwright.Domain.Engines;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Rules;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Fitting;

public class FitStepsTests
{
    [Fact]
    public void For_CamshaftsOut_GoesInWorkingOrder()
    {
        Ledger ledger = Ledger.ShimsPlanned();
        Assert.Equal(
            ["isolate", "covered", "open/exhaust cam", "refit/exhaust cam", "timing", "turned", "clear"],
            FitSteps.For(ledger.Sheet).Select(s => s.Name));
        Assert.Equal([false, false, false, true, true, true, true], FitSteps.For(ledger.Sheet).Select(s => s.After));
    }

    /// <summary>A timing that is out is the one mistake of this work that wrecks the engine at once: common practice, no source.</summary>
    [Fact]
    public void For_CamshaftsOut_AsksForTheTimingAndWarnsOfTheStarter()
    {
        FitStep timing = Assert.Single(FitSteps.For(Ledger.ShimsPlanned().Sheet), s => s.Name == FitSteps.Timing);
        Assert.True(timing.Must);
        Assert.Contains("can bend its valves", timing.Text, StringComparison.Ordinal);
        Assert.Contains("never with the starter", timing.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void For_EveryAdjuster_NamesTheTimingWhereTheOrderOfWorkLiftsCamshafts() => Assert.All(
        Enum.GetValues<Adjuster>(),
        adjuster => Assert.Equal(
            WorkOrder.LiftsCamshafts(adjuster),
            WorkOrder.StepsFor(adjuster).Any(s => s.Contains("Refit the camshaft on its marks", StringComparison.Ordinal))));

    // Rockers that slide aside: common practice, no source. Nothing is lifted, and nothing tells to lift it.
    [Fact]
    public void For_NothingToLift_OpensNothing()
    {
        Ledger ledger = Ledger.ImportedJob(Sample.Screws().Remove("$.recheck")
            .Set("$.engine.valves[0].access", "\"none\"").Set("$.engine.valves[1].access", "\"none\"").Text);
        ledger.Add(ledger.ItsPlan());
        Assert.Empty(ledger.Sheet.Plan!.Opened);
        Assert.Contains(ledger.Sheet.Plan.Valves, v => v.Action == "turn");
        Assert.Equal(["isolate", "covered", "turned", "clear"], FitSteps.For(ledger.Sheet).Select(s => s.Name));
        Assert.DoesNotContain(WorkOrder.StepsFor(Adjuster.FingerFollower, lifts: false), s => s.Contains("cap", StringComparison.Ordinal) || s.Contains("Refit", StringComparison.Ordinal));
        Assert.Contains(WorkOrder.StepsFor(Adjuster.FingerFollower, lifts: false), s => s.Contains("Swing the finger aside", StringComparison.Ordinal));
    }

    [Fact]
    public void For_Screws_OpensAndClosesWithoutTiming()
    {
        Ledger ledger = Ledger.Screws();
        ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.15, 0.01));
        ledger.Add(new ClearanceRead(SheetPart.Check, "E1", 0.32, 0.01));
        ledger.Add(ledger.ItsPlan());
        string[] names = [.. FitSteps.For(ledger.Sheet).Select(s => s.Name)];
        Assert.Equal(["isolate", "covered", names[2], names[3], "turned", "clear"], names);
        Assert.Equal(names[2].Replace("open/", "refit/", StringComparison.Ordinal), names[3]);
        Assert.DoesNotContain(FitSteps.For(ledger.Sheet), s => s.Text.Contains("marks", StringComparison.Ordinal));
    }

    [Fact]
    public void For_ChangesBeyondThePlan_OpensTheirGroupsToo()
    {
        Ledger ledger = Ledger.ShimsPlanned();
        ledger.Add(new ShimFitted("I1", new ThicknessRow(2.62, "micrometer"), new ThicknessRow(2.60, "marked")));
        Assert.Equal(
            ["open/intake cam", "open/exhaust cam"],
            FitSteps.For(ledger.Sheet).Select(s => s.Name).Where(n => n.StartsWith(FitSteps.Open, StringComparison.Ordinal)));
    }

    [Fact]
    public void For_NothingAccepted_HasNoSteps() => Assert.Empty(FitSteps.For(Ledger.ShimsMeasured().Sheet));

    /// <summary>A job that was taken in with its work done has been ticked elsewhere, or nowhere: there is nothing to tick any more.</summary>
    [Fact]
    public void For_TakenInWithItsWorkDone_HasNoSteps()
    {
        JobSheet sheet = Ledger.ImportedJob(Samples.Demo.Text("01-flood-pump.json")).Sheet;
        Assert.Empty(FitSteps.For(sheet));
        Assert.Equal(["I1", "I2", "E2"], FitSteps.ChangedBy(sheet));
    }

    [Fact]
    public void TimingIsOwed_ShimFittedAndTimingNotTicked_KeepsTheJobOpen()
    {
        Ledger ledger = Ledger.ShimsPlanned();
        Assert.False(FitSteps.TimingIsOwed(ledger.Sheet));
        ledger.Add(new ShimFitted("E1", new ThicknessRow(2.75, "micrometer"), new ThicknessRow(2.70, "calliper")));
        Assert.True(FitSteps.TimingIsOwed(ledger.Sheet));
        JobProblem refused = Assert.Single(SheetRules.ProblemsOf(ledger.Sheet, new JobClosed(200, "", "", "")), p => p.Path == "timing");
        Assert.Contains("tick it under fit", refused.Allowed, StringComparison.Ordinal);
        ledger.Add(new StepTicked(FitSteps.Timing, true));
        Assert.DoesNotContain(SheetRules.ProblemsOf(ledger.Sheet, new JobClosed(200, "", "", "")), p => p.Path == "timing");
    }

    [Fact]
    public void TimingIsOwed_CamshaftLiftedAndNothingChanged_KeepsTheJobOpenToo()
    {
        Ledger ledger = Ledger.ShimsPlanned();
        ledger.Add(new StepTicked("open/exhaust cam", true));
        Assert.True(FitSteps.TimingIsOwed(ledger.Sheet));
    }
}
