using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class GivenCauseTests
{
    private const double Same = 1e-12;

    /// <summary>One that may well come, and two that contradict all else: the rarer a reading the more it moves the weights.</summary>
    private static readonly ValveReadings[] Firsts = [Made.Felt((0.10, Feel.Firm)), Made.Felt((0.60, Feel.Loose)), new(values: [new DirectValue(-0.4, 0.005)])];

    /// <summary>After one more reading, and after two at different valves: what the weights say of all options is what the distributions say.</summary>
    [Fact]
    public void Options_AfterMoreReadings_AreThoseOfTheDistributions()
    {
        int compared = 0;
        for (int seed = 0; seed < 12; seed++)
        {
            PlanRequest request = RealisticJob.Draw(seed);
            EngineEstimate now = EngineEstimate.Open(request.Check, request.FinestChange);
            GivenCause given = new(now);
            EngineEstimate once = now.With(0, Firsts[seed % Firsts.Length]);
            foreach (EngineEstimate after in new[] { once, once.With(now.Valves.Count - 1, Made.Felt((0.20, Feel.No))) })
            {
                PlanRequest anew = request.With(after.Check);
                compared += AssertSame(new OptionTable(anew, after), new OptionTable(anew, after, given));
            }
        }

        Assert.True(compared > 1_000, $"{compared} options were compared.");
    }

    private static int AssertSame(OptionTable slow, OptionTable quick)
    {
        int compared = 0;
        for (int v = 0; v < slow.Kept.Length; v++)
        {
            ValveOption[] Of(OptionTable table) => [table.Kept[v], table.Seated[v], .. table.Shared[v].Select(s => s.Option), .. table.Private[v]];
            (ValveOption[] a, ValveOption[] b) = (Of(slow), Of(quick));
            Assert.Equal(a.Select(o => (o.Action, o.To, o.Source, o.FromValve, o.IsStranded, o.Minutes)), b.Select(o => (o.Action, o.To, o.Source, o.FromValve, o.IsStranded, o.Minutes)));
            Assert.All(a.Zip(b), o => Assert.Equal(o.First.Chance, o.Second.Chance, Same));
            compared += a.Length;
        }

        return compared;
    }
}
