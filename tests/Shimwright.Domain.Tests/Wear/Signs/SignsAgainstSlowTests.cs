using Shimwright.Domain.Wear;
using Shimwright.Domain.Wear.Signs;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Wear.Signs;

/// <summary>What is said of engines quiet and not so quiet, by another way through the same rules.</summary>
[Proof(Formulas.Signs, Evidence.Computed, "The rules gone through another way.")]
public class SignsAgainstSlowTests
{
    private const int Engines = 300;

    [Theory]
    [InlineData(1)]
    [InlineData(0.1)]
    [InlineData(WearSigns.UsualLimit)]
    public void Of_EnginesOfEveryKind_IsWhatTheRulesSay(double limit)
    {
        Dictionary<SignKind, int> said = [];
        foreach (EngineWear wear in Drawn())
        {
            (SignKind Kind, double Evidence, int[] Valves)[] slow = [.. new SlowSigns(wear).Of(limit)];
            WearSign[] signs = [.. WearSigns.Of(wear, limit: limit)];
            Assert.Equal(slow.Select(s => s.Kind), signs.Select(s => s.Kind));
            foreach (((SignKind kind, double evidence, int[] valves), WearSign sign) in slow.Zip(signs))
            {
                Assert.Equal(evidence, sign.Evidence, 0.003 * evidence);
                Assert.Equal(evidence < 1 ? valves : [.. valves.Order()], evidence < 1 ? sign.Valves : [.. sign.Valves.Order()]);
                said[kind] = said.GetValueOrDefault(kind) + 1;
            }
        }

        // Each rule has to have spoken now and then, and kept silent, or nothing was compared.
        Assert.All(Enum.GetValues<SignKind>().Except([SignKind.RoomNearlyUsed]), k => Assert.InRange(said.GetValueOrDefault(k), 5, Engines));
    }

    [Fact]
    public void Of_ThinnestShim_NamesTheValvesThatMayRunOutOfIt()
    {
        const double near = 0.05, thinnest = 2.2;
        int mixed = 0;
        foreach (EngineWear wear in Drawn())
        {
            var slow = new SlowSigns(wear);
            int[] expected = [.. Enumerable.Range(0, 8).Where(v => slow.ChanceOfNoRoom(v, thinnest) >= near).OrderByDescending(v => slow.ChanceOfNoRoom(v, thinnest))];
            WearSign? sign = WearSigns.Of(wear, thinnest).SingleOrDefault(s => s.Kind == SignKind.RoomNearlyUsed);
            Assert.Equal(expected, sign?.Valves ?? []);
            Assert.Equal(expected.Length == 0 ? 0 : slow.ChanceOfNoRoom(expected[0], thinnest), sign?.Evidence ?? 0, 1e-9);
            mixed += expected.Length is > 0 and < 8 ? 1 : 0;
        }

        Assert.InRange(mixed, Engines / 4, Engines);
    }

    /// <summary>A third of them quiet; the others with fast intakes, fast valves all over, one fast or gaining valve, a jump, a warm check.</summary>
    private static IEnumerable<EngineWear> Drawn()
    {
        for (int seed = 0; seed < Engines; seed++)
        {
            var chance = new SeededChance(seed);
            double fault = chance.Uniform(0.02, 0.15);
            yield return (seed % 9) switch
            {
                0 => new QuietEngine(chance, v => v < 4 ? fault : 0).Last(),
                1 => new QuietEngine(chance, _ => fault).Last(),
                2 => new QuietEngine(chance, v => v == 5 ? fault : 0).Last(),
                3 => new QuietEngine(chance, v => v == 2 ? -fault : 0).Last(),
                4 => new QuietEngine(chance).Last(jumps: seed % 8, by: fault),
                5 => new QuietEngine(chance).Last(chance.Pick(10.0, 30, 30.01, 45)),
                6 => new QuietEngine(chance, _ => fault).Last(chance.Pick(29.9, 30.5, 60)),
                _ => new QuietEngine(chance).Last(),
            };
        }
    }
}
