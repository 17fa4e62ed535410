using Shimwright.Domain.Numerics;
using Shimwright.Domain.Tests.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Domain.Wear.Signs;
using Shimwright.Testing;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear.Signs;

/// <summary>How often signs are said of engines with nothing wrong, and how often of engines with something wrong.</summary>
[Proof(Formulas.Signs, Evidence.Simulated, "Engines with nothing wrong, and with a fault: how often each sign is said.")]
public class SignsCalibrationTests(ITestOutputHelper output)
{
    private static readonly double[] Limits = [0.05, 0.2];

    /// <summary>
    /// A rule about one valve among n that are independent says something with chance 1 - (1 - limit/n)^n; a rule about their mean with
    /// that of the limit. The others choose among numbers that hang together, and may only be more cautious than their limit, and not
    /// more so than their parts of it: two sides that have to agree are seldomer fast than one.
    /// </summary>
    [Fact]
    [Long]
    public void Of_NothingWrong_SaysASignAsOftenAsItsLimit()
    {
        int engines = Effort.Cases(2_000, 60_000);
        var exact = Limits.ToDictionary(l => l, _ => new[] { new Tally("step"), new Tally("missed prediction"), new Tally("temperature") });
        var counts = Limits.ToDictionary(l => l, _ => new Dictionary<SignKind, int>());
        for (int seed = 0; seed < engines; seed++)
        {
            EngineWear wear = new QuietEngine(new SeededChance(500_000 + seed)).Last(temperature: 45);
            int changed = wear.Checks[^2].Changes.Count;
            foreach (double limit in Limits)
            {
                HashSet<SignKind> said = [.. WearSigns.Of(wear, limit: limit).Select(s => s.Kind)];
                exact[limit][0].Add(OfOneAmong(8 - changed, limit), said.Contains(SignKind.Step));
                exact[limit][1].Add(OfOneAmong(changed, limit), said.Contains(SignKind.MissedPrediction));
                exact[limit][2].Add(limit, said.Contains(SignKind.Temperature));
                foreach (SignKind kind in said)
                {
                    counts[limit][kind] = counts[limit].GetValueOrDefault(kind) + 1;
                }
            }
        }

        foreach (double limit in Limits)
        {
            Assert.All(exact[limit], t => t.AssertHolds(output, engines));
            foreach ((SignKind kind, double least) in new[] { (SignKind.IntakesFast, 0.25), (SignKind.FarFromPartner, 0.7), (SignKind.AllFast, 0.1), (SignKind.Gaining, 0.65) })
            {
                double share = counts[limit].GetValueOrDefault(kind) / (double)engines;
                output.WriteLine($"{kind}: {share:0.0000} at {limit}");
                double sigmas = 3.5 * Math.Sqrt(limit * (1 - limit) / engines);
                Assert.InRange(share, (least * limit) - sigmas, limit + sigmas);
            }
        }
    }

    /// <summary>
    /// A jump between two checks is found with the chance that its miss goes over the limit, which is known: that of a normal number
    /// shifted by the jump over the doubt of the prediction and of the reading.
    /// </summary>
    [Theory]
    [Long]
    [InlineData(0.02)]
    [InlineData(-0.04)]
    public void Of_AJump_IsNamedAsOftenAsTheLawSays(double by)
    {
        const double limit = 0.05;
        int engines = Effort.Cases(1_000, 40_000);
        var found = new Tally("jump");
        for (int seed = 0; seed < engines; seed++)
        {
            EngineWear wear = new QuietEngine(new SeededChance(700_000 + seed)).Last(jumps: 6, by: by);
            int looked = wear.Engine.Valves.Count - wear.Checks[^2].Changes.Count;
            if (wear.Checks[^2].ChangeAt(6) is null)
            {
                double size = by / Math.Sqrt(wear.Valves[6][^1].Predicted.ClearanceVariance + Math.Pow(QuietEngine.Uncertainty, 2));
                double edge = StandardNormal.Quantile(1 - (limit / looked / 2));
                found.Add(StandardNormal.Cdf(size - edge) + StandardNormal.Cdf(-size - edge), WearSigns.Of(wear, limit: limit).Any(s => s.Kind == SignKind.Step && s.Valves.Contains(6)));
            }
        }

        found.AssertHolds(output, engines / 2);
    }

    /// <summary>Faults of four and of ten usual spreads, over an interval or so and at the limit that is usual. The floors are what is promised.</summary>
    [Theory]
    [Long]
    [InlineData(SignKind.IntakesFast, 0.08, 0.9)]
    [InlineData(SignKind.AllFast, 0.08, 0.95)]
    [InlineData(SignKind.FarFromPartner, 0.2, 0.75)]
    [InlineData(SignKind.Gaining, -0.2, 0.9)]
    public void Of_AFault_IsNamedMostly(SignKind kind, double lossPerInterval, double floor)
    {
        int engines = Effort.Cases(300, 10_000);
        int found = 0;
        for (int seed = 0; seed < engines; seed++)
        {
            EngineWear wear = new QuietEngine(new SeededChance(900_000 + seed), v => IsFaulty(kind, v) ? lossPerInterval : 0).Last();
            found += WearSigns.Of(wear).Any(s => s.Kind == kind && s.Valves.Contains(1)) ? 1 : 0;
        }

        output.WriteLine($"{kind}: {found} of {engines}");
        Assert.InRange(found / (double)engines, floor, 1);
    }

    /// <summary>A sign is said at its evidence and above, and not below.</summary>
    [Fact]
    public void Of_Limit_TurnsAtTheEvidence()
    {
        EngineWear wear = new QuietEngine(new SeededChance(4), v => v < 4 ? 0.1 : -0.1).Last(45, 6, 0.05);
        IReadOnlyList<WearSign> signs = WearSigns.Of(wear, limit: 0.9);
        Assert.InRange(signs.Count, 4, 8);
        Assert.All(signs, s =>
        {
            Assert.Contains(WearSigns.Of(wear, limit: s.Evidence), t => t.Kind == s.Kind);
            Assert.DoesNotContain(WearSigns.Of(wear, limit: s.Evidence * (1 - 1e-12)), t => t.Kind == s.Kind);
        });
        Assert.Equal(WearSigns.Of(wear, limit: 0.0025).Select(s => s.Kind), WearSigns.Of(wear).Select(s => s.Kind));
        Assert.Equal(1 / 400.0, WearSigns.UsualLimit);
    }

    [Fact]
    public void Of_OneCheck_TellsNothingOfRates() =>
        Assert.Empty(WearSigns.Of(WearFilter.Follow([Kept.Check(0, Made.Value(0.02))], Kept.Wear), limit: 0.9));

    private static double OfOneAmong(int valves, double limit) => valves == 0 ? 0 : 1 - Math.Pow(1 - (limit / valves), valves);

    private static bool IsFaulty(SignKind kind, int valve) => kind switch
    {
        SignKind.IntakesFast => valve < 4,
        SignKind.AllFast => true,
        _ => valve == 1,
    };
}
