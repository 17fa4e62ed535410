using Shimwright.Bench.Drawer;
using Shimwright.Testing;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Alike;

/// <summary>A bench in memory answers as one in a database does, digit for digit, whatever is done to both.</summary>
[Long]
public class AlikeTests
{
    private const int Times = 200;

    public static TheoryData<BenchKind, int> Cases
    {
        get
        {
            TheoryData<BenchKind, int> cases = [];
            foreach (int seed in Enumerable.Range(1, Effort.Cases(3, 40)))
            {
                cases.Add(seed % 3 == 0 && !Effort.IsQuick ? BenchKind.Postgres : BenchKind.Sqlite, seed);
            }

            return cases;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task Answers_OfABenchInMemoryAndOneInADatabase_AreTheSame(BenchKind kind, int seed)
    {
        await using TestBench kept = await TestBench.OfAsync(kind), memory = await TestBench.OfAsync(BenchKind.Memory);
        var twins = new Twins(kept, memory);
        var hand = new RandomHand(seed, twins);
        await hand.ActAsync(Times);
        foreach (Func<Twin, Task<string>> view in Views.All)
        {
            await twins.DoAsync("looked at in the end", view);
        }

        // It has really worked: jobs went on and were closed, shims went in and out, some things were refused.
        string done = string.Join(", ", hand.Done.OrderBy(d => d.Key).Select(d => $"{d.Key} {d.Value}"));
        Assert.True(hand.Done.GetValueOrDefault("WorkAsync saved") >= Times / 5, done);
        Assert.True(hand.Done.GetValueOrDefault("WorkAsync refused") >= 3, done);
        Assert.True((await kept.Bench.Jobs.ClosedAsync(0, 100, Cancel)).Count >= 3, done);
        IReadOnlyList<DrawerMove>[] moves = await Task.WhenAll((await memory.Bench.Drawer.LotsAsync(Cancel)).Select(l => memory.Bench.Drawer.HistoryAsync(l.Size, Cancel)));
        Assert.True(moves.SelectMany(m => m).Count(m => m.Job is not null) >= 2, done);
    }
}
