using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Facts;

public class PlanProposalTests
{
    public static TheoryData<string> Files() => [.. Demo.Files];

    [Theory]
    [MemberData(nameof(Files))]
    public void AllOf_EveryDemo_OffersTheAlternativesAndAdvisesTheChosenOne(string file)
    {
        PlanResult result = ResultOf(file);
        IReadOnlyList<PlanProposal> offers = PlanProposal.AllOf(result);
        Assert.Equal(result.Alternatives.Count, offers.Count);
        PlanProposal advised = Assert.Single(offers, o => o.IsAdvised);
        Assert.Equal((result.Minutes, result.ChanceAll), (advised.Plan.Minutes, advised.Plan.ChanceAll));
        Assert.Equal(result.Valves, advised.Plan.Valves);
        Assert.Equal(result.Stranded, advised.Plan.Stranded);
        Assert.Equal(offers.Count, offers.Select(o => o.Fingerprint).Distinct().Count());
    }

    [Fact]
    public void FingerprintOf_TheSamePlanMadeAgain_IsTheSame() => Assert.Equal(
        PlanProposal.AllOf(ResultOf("02-worn-four.json")).Select(o => o.Fingerprint),
        PlanProposal.AllOf(ResultOf("02-worn-four.json")).Select(o => o.Fingerprint));

    /// <summary>A plan that was kept and read again is known by its mark.</summary>
    [Fact]
    public void FingerprintOf_APlanKeptAndReadAgain_IsTheSame() => Assert.All(
        PlanProposal.AllOf(ResultOf("07-stranded-valve.json")),
        o => Assert.Equal(o.Fingerprint, PlanProposal.FingerprintOf((PlanAccepted)FactJson.Read(FactJson.Write(o.Plan)))));

    [Fact]
    public void FingerprintOf_AnotherFigure_IsAnotherOne()
    {
        PlanProposal offer = PlanProposal.AllOf(ResultOf("01-flood-pump.json"))[0];
        Assert.NotEqual(offer.Fingerprint, PlanProposal.FingerprintOf(offer.Plan with { Minutes = offer.Plan.Minutes + 1e-6 }));
        Assert.NotEqual(offer.Fingerprint, PlanProposal.FingerprintOf(offer.Plan with
        {
            Valves = [offer.Plan.Valves[0] with { Chance = 0.5 }, .. offer.Plan.Valves.Skip(1)],
        }));
    }

    private static PlanResult ResultOf(string file) =>
        PlanResult.Of(JobFile.Read(System.Text.Encoding.UTF8.GetBytes(Demo.Text(file)), JobPurpose.Plan).Job!);
}
