using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Fitting;

public class MarkedShimsTests
{
    [Fact]
    public void Of_OnlyOneKindKnown_IsNothing()
    {
        Assert.Empty(MarkedShims.Of(Ledger.ShimsMeasured().Sheet));
        Ledger marked = Ledger.Shims();
        marked.Add(new ThicknessFound("I1", 2.6, "marked"));
        marked.Add(new ThicknessFound("I1", 2.59, "calliper"));
        Assert.Empty(MarkedShims.Of(marked.Sheet));
    }

    [Fact]
    public void Of_MarkedThenMeasured_IsOneShimWithWhatWasSaidLast()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new ThicknessFound("I1", 2.55, "marked"));
        ledger.Add(new ThicknessFound("I1", 2.60, "marked"));
        ledger.Add(new ThicknessFound("I1", 2.596, "micrometer"));
        ledger.Add(new ThicknessFound("E1", 2.75, "marked"));
        MarkedShim shim = Assert.Single(MarkedShims.Of(ledger.Sheet));
        Assert.Equal(new MarkedShim("I1", 2.60, 2.596), shim);
        Assert.Equal(-0.004, shim.Difference, 1e-12);
        Assert.True(shim.IsOne);
    }

    [Fact]
    public void Of_TakenBack_NoLongerCounts()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new ThicknessFound("I1", 2.60, "marked"));
        Guid measured = ledger.Add(new ThicknessFound("I1", 2.596, "micrometer"));
        ledger.Add(new Undone(measured));
        Assert.Empty(MarkedShims.Of(ledger.Sheet));
    }

    [Fact]
    public void Of_MeasuredAsItCameOutAndAsTheNewOneWentIn_IsBoth()
    {
        Ledger ledger = Ledger.Shims();
        ledger.Add(new ClearanceRead(SheetPart.Check, "I1", 0.14, 0.01));
        ledger.Add(new ClearanceRead(SheetPart.Check, "E1", 0.17, 0.01));
        ledger.Add(new ThicknessFound("I1", 2.62, "micrometer"));
        ledger.Add(new ThicknessFound("E1", 2.75, "marked"));
        ledger.Add(new StockStated([], [new(2.5, 2.9, 0.05, 8)]));
        ledger.Add(ledger.ItsPlan());
        ledger.TickAll();
        double planned = Assert.Single(ledger.Sheet.Plan!.Changes).To!.Thickness;
        Assert.Equal("marked", ledger.Sheet.Plan.Changes.Single().To!.By);
        ledger.Add(new ShimFitted("E1", new(2.744, "micrometer"), new(planned + 0.003, "micrometer")));
        Assert.Equal([new MarkedShim("E1", 2.75, 2.744), new MarkedShim("E1", planned, planned + 0.003)], MarkedShims.Of(ledger.Sheet));
    }

    [Theory]
    [InlineData(2.56, true)]
    [InlineData(2.559, false)]
    [InlineData(2.70, false)]
    public void IsOne_FarApart_IsAnotherShim(double measured, bool isOne) => Assert.Equal(isOne, new MarkedShim("I1", 2.60, measured).IsOne);
}
