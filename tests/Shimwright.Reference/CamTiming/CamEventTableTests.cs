using Shimwright.Domain.CamTiming;
using Shimwright.Domain.CrankStops;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.CamTiming;

/// <summary>Published opening and closing events, and what is printed of durations, overlap and lobe centres beside them.</summary>
[Proof(Formulas.Timing, Evidence.Published, "Published events with their durations, overlap and lobe centres.")]
public class CamEventTableTests
{
    // TM 9-8000, figures 2-54 to 2-56: opens 28 before, exhaust closes 45 after TDC, duration 279, overlap 73. Its intake
    // closing, 71, and lobe centre, 111.5, are derived from those (279 - 28 - 180; 279/2 - 28); its exhaust opening is not
    // printed and changes none of them.
    [Fact]
    public void Lobes_LongOpenings_HaveThePrintedDurationAndOverlap()
    {
        var lobes = new LobeTiming(new CamEvents(28, 71), new CamEvents(71, 45));
        Assert.Equal(279, lobes.IntakeDuration);
        Assert.Equal(73, lobes.Overlap);
        Assert.Equal(111.5, lobes.IntakeCentre);
    }

    // Rathbun, Gas, Oil and Steam Engines, article 138: intake opens 15 after TDC and closes 35 after, exhaust opens 40 before and
    // closes 10 after: both closed for 5 degrees, a negative overlap. Durations and centres derived from those.
    [Fact]
    public void Lobes_IntakeThatOpensLate_HasNegativeOverlap()
    {
        var lobes = new LobeTiming(new CamEvents(-15, 35), new CamEvents(40, 10));
        Assert.Equal(-5, lobes.Overlap);
        Assert.Equal((200, 230), (lobes.IntakeDuration, lobes.ExhaustDuration));
        Assert.Equal((115, 105), (lobes.IntakeCentre, lobes.ExhaustCentre));
        Assert.Equal(110, lobes.Separation);
    }

    // An arithmetic example, derived: 20/60 and 60/20.
    [Fact]
    public void Lobes_SymmetricalExample_ComesOut()
    {
        var lobes = new LobeTiming(new CamEvents(20, 60), new CamEvents(60, 20));
        Assert.Equal((260, 260), (lobes.IntakeDuration, lobes.ExhaustDuration));
        Assert.Equal((110, 110), (lobes.IntakeCentre, lobes.ExhaustCentre));
        Assert.Equal(110, lobes.Separation);
        Assert.Equal(40, lobes.Overlap);
    }
}
