using System.Numerics;
using Shimwright.Domain.CrankStops;
using Xunit;

namespace Shimwright.Domain.Tests.CrankStops;

public class StopCoverTests
{
    [Fact]
    public void Fewest_RandomCandidates_IsThatOfEverySubset()
    {
        var chance = new SeededChance(20250709);
        HashSet<int?> seen = [];
        for (int run = 0; run < 400; run++)
        {
            int valves = chance.Whole(1, 14);
            double density = chance.Pick(0.15, 0.25, 0.4, 0.7);
            ulong[] serves = [.. Enumerable.Range(0, chance.Whole(1, 12)).Select(_ => Served(chance, valves, density))];
            ulong wanted = Served(chance, valves, 0.9);
            int? fewest = Slow(serves, wanted);
            seen.Add(fewest);

            var cover = new StopCover(serves);
            Assert.Equal(fewest, cover.Fewest(wanted));
            for (int most = 0; most <= serves.Length; most++)
            {
                Assert.Equal(fewest <= most, cover.CanServe(wanted, most));
            }
        }

        Assert.True(seen.Count >= 6);
    }

    /// <summary>Sixty-four valves on a circle, each served by two neighbours: no bound by numbers alone ends this early.</summary>
    [Fact]
    public void Fewest_LongChain_NeedsEverySecond()
    {
        ulong[] serves = [.. Enumerable.Range(0, 64).Select(k => (1UL << k) | (1UL << ((k + 1) % 64)))];
        Assert.Equal(32, new StopCover(serves).Fewest(ulong.MaxValue));
    }

    [Fact]
    public void Fewest_TheSameQuestionTwice_HasTheSameAnswer()
    {
        ulong[] serves = [0b0011, 0b0110, 0b1100];
        var cover = new StopCover(serves);
        Assert.False(cover.CanServe(0b1111, 1));
        Assert.False(cover.CanServe(0b1111, 1));
        Assert.True(cover.CanServe(0b1111, 2));
        Assert.True(cover.CanServe(0b1111, 3));
        Assert.False(cover.CanServe(0b10000, 3));
        Assert.Null(cover.Fewest(0b10001));
        Assert.Equal(0, cover.Fewest(0));
    }

    private static ulong Served(SeededChance chance, int valves, double density) =>
        Enumerable.Range(0, valves).Aggregate(0UL, (served, v) => served | (chance.Happens(density) ? 1UL << v : 0));

    private static int? Slow(ulong[] serves, ulong wanted) =>
        Enumerable.Range(0, 1 << serves.Length)
            .Where(set => (wanted & ~serves.Index().Where(s => (set & (1 << s.Index)) != 0).Aggregate(0UL, (a, s) => a | s.Item)) == 0)
            .Min(set => (int?)BitOperations.PopCount((uint)set));
}
