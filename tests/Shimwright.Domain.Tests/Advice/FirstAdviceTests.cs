using Shimwright.Domain.Advice;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Tests.Planning;
using Shimwright.Testing;
using Xunit;

namespace Shimwright.Domain.Tests.Advice;

/// <summary>The best thing to do found with less work: it is the best of all that are planned through, bit for bit.</summary>
public class FirstAdviceTests(ITestOutputHelper output)
{
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23];

    [Fact]
    public void First_SmallJobs_IsTheBestOfAll() => AssertSame(Enumerable.Range(0, Effort.Cases(60, 600)).Select(RandomJob.Draw));

    [Fact]
    [Long]
    public void First_RealisticJobs_IsTheBestOfAll() => AssertSame(Enumerable.Range(0, Effort.Cases(30, 200)).Select(seed => RealisticJob.Draw(seed)));

    /// <summary>What cannot be the best is left before its last outcome, and then it saves less than the best does.</summary>
    [Fact]
    public void OfBlade_MoreToSaveThanItSaves_IsGivenUp()
    {
        (int givenUp, int spared) = (0, 0);
        for (int seed = 0; seed < 40; seed++)
        {
            var now = new Outlook(RandomJob.Draw(seed));
            double saves = TrialWorth.Saving(now, TrialWorth.OfBlade(now, 0, 0.13, 1));
            Assert.True(saves == 0 || TrialWorth.OfBlade(now, 0, 0.13, 1, [0.1, 0.2, 0.3, 0.4], saves) is not null);
            givenUp += TrialWorth.OfBlade(now, 0, 0.13, 1, [0.1, 0.2, 0.3, 0.4], saves + 0.001) is null ? 1 : 0;
            Assert.Null(TrialWorth.OfBlade(now, 0, 0.13, 1, [0.1, 0.2, 0.3, 0.4], now.Minutes + 0.001));
            spared += now.Spared;
        }

        output.WriteLine($"{givenUp} given up, {spared} outcomes spared");
        Assert.Equal(40, givenUp);
        Assert.True(spared > 80, $"{spared} outcomes");
    }

    /// <summary>The order in which outcomes are looked at changes nothing of what is told of them.</summary>
    [Fact]
    public void OfBlade_LikeliestFirst_TellsTheSame()
    {
        for (int seed = 0; seed < 20; seed++)
        {
            var now = new Outlook(RandomJob.Draw(seed));
            Assert.Equal(TrialWorth.OfBlade(now, 1, 0.10, 1), TrialWorth.OfBlade(now, 1, 0.10, 1, [0.4, 0.1, 0.3, 0.2], double.MinValue));
            Assert.Equal(TrialWorth.OfBucket(now, 0), TrialWorth.OfBucket(now, 0, [0.2, 0.8], double.MinValue));
        }
    }

    [Fact]
    public void First_NothingPays_IsNull()
    {
        var request = new PlanRequest(Made.Check(Made.Value(0.15, 0.002), Made.Value(0.151, 0.002)), [Made.Measured(2.5), Made.Measured(2.5)]);
        Assert.Null(Advisor.First(new AdviceRequest(request, Blades)));
        Assert.Throws<ArgumentNullException>(() => Advisor.First(null!));
    }

    private void AssertSame(IEnumerable<PlanRequest> jobs)
    {
        Dictionary<string, int> kinds = [];
        foreach (PlanRequest job in jobs)
        {
            var request = new AdviceRequest(job, Blades);
            AdvisedAction? all = Advisor.For(request).Next is [var best, ..] ? best : null;
            AdvisedAction? first = Advisor.First(request);
            string kind = all?.Kind.ToString() ?? "plan now";
            kinds[kind] = kinds.GetValueOrDefault(kind) + 1;
            Assert.Equal((all?.Kind, all?.Valve, all?.Shim, all?.Access), (first?.Kind, first?.Valve, first?.Shim, first?.Access));
            Assert.Equal((all?.Saves, all?.Takes), (first?.Saves, first?.Takes));
            Assert.Equal(all?.Blades ?? [], first?.Blades ?? []);
            Assert.Equal(all?.Outcomes ?? [], first?.Outcomes ?? []);
        }

        output.WriteLine(string.Join(", ", kinds.Select(k => $"{k.Key} {k.Value}")));
        Assert.True(kinds.Count >= 3, "The jobs are too much alike.");
    }
}
