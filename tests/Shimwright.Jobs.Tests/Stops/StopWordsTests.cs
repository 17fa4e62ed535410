using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Stops;

public class StopWordsTests
{
    [Fact]
    public void Words_InlineFour_NameTurnAndDeadCentres() => Assert.Equal(
        [
            "start at cylinder 1 on compression TDC: cylinder 4 at TDC between exhaust and intake",
            "turn 360 degrees in running direction: cylinder 4 now at TDC on compression, cylinder 1 at TDC between exhaust and intake",
        ],
        Words(StopsJob.Four()));

    [Fact]
    public void Words_TurningOnTheCard_IsRepeated() => Assert.Equal(
        "turn 360 degrees in running direction (clockwise, seen from the belt): cylinder 4 now at TDC on compression, cylinder 1 at TDC between exhaust and intake",
        Words(StopsJob.Four().Set("$.engine.layout.turning", "\"clockwise, seen from the belt\""))[1]);

    [Fact]
    public void Words_MarkOrNoMark_SayWhereTheCrankIs()
    {
        JobDraft draft = StopsJob.Four()
            .Set("$.engine.layout.firingAngles", "[0, 0, 180, 180]")
            .Set("$.engine.layout.marks", "[95.5]");
        Assert.Equal("from cylinder 1 on compression TDC turn 95.5 degrees in running direction: at the further mark", Words(draft)[0]);
        Assert.Equal("from cylinder 1 on compression TDC turn 90 degrees in running direction", Words(draft.Set("$.engine.layout.stopsAt", "\"anywhere\""))[0]);
    }

    [Fact]
    public void Words_CylindersThatFireTogether_AreNamedTogether() => Assert.StartsWith(
        "start at cylinder 1 on compression TDC: cylinder 2 now at TDC on compression, cylinder 3 and 4 at TDC between",
        Words(StopsJob.Four().Set("$.engine.layout.firingOrder", "[1, 2, 3, 4]").Set("$.engine.layout.firingAngles", "[0, 0, 360, 360]"))[0],
        StringComparison.Ordinal);

    // The zero of the angles need not be cylinder 1: then nobody is sent to cylinder 1.
    [Theory]
    [InlineData("[0, 180, 360, 540]", "start at cylinder 3 on compression TDC: cylinder 2 at TDC between exhaust and intake")]
    [InlineData("[90, 270, 450, 630]", "from the zero of the firing angles, 90 degrees before cylinder 3 on compression TDC, turn 90 degrees in running direction: cylinder 3 now at TDC on compression, cylinder 2 at TDC between exhaust and intake")]
    public void Words_DatumThatIsNotCylinderOne_SayWhatItIs(string angles, string words) => Assert.Equal(
        words,
        Words(StopsJob.Four().Set("$.engine.layout.firingOrder", "[3, 4, 2, 1]").Set("$.engine.layout.firingAngles", angles))[0]);

    [Fact]
    public void Rules_InlineFourWithMirroredHead_AreAllThree()
    {
        JobDraft draft = StopsJob.Four();
        foreach ((int first, int second) in new[] { (0, 1), (4, 5) })
        {
            // Exhaust first in cylinders 1 and 3: E I I E E I I E.
            string intake = draft.At($"$.engine.valves[{first}]").ToJsonString();
            draft.Set($"$.engine.valves[{first}]", draft.At($"$.engine.valves[{second}]").ToJsonString()).Set($"$.engine.valves[{second}]", intake);
        }

        Assert.Equal(
            [
                "Running mates 1-4, 2-3: when a valve of one is fully open, the same valve of the other may be set.",
                "Rule of 9: with the valves numbered as listed, front to rear, when valve k is fully open set valve 9 - k.",
                "Cylinder by cylinder: as its exhaust valve begins to open set the intake; as its intake valve, past full lift, begins to close set the exhaust.",
            ],
            StopsJob.Answer(draft).Rules);
    }

    [Fact]
    public void Rules_HeadThatIsNoMirror_DoNotOfferThePairs() =>
        Assert.DoesNotContain(StopsJob.Answer(StopsJob.Four()).Rules, r => r.StartsWith("Rule of", StringComparison.Ordinal));

    private static string[] Words(JobDraft draft) => [.. StopsJob.Answer(draft).Stops.Select(s => s.Words)];
}
