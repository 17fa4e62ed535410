using Shimwright.Bench.Drawer;
using Shimwright.Testing;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Alike;

/// <summary>A bench in memory answers as one in a database does, digit for digit, whatever is done to both; and it is kept line by line as it is held.</summary>
[Long]
public class AlikeTests
{
    private const int Times = 200;
    private const int SeedsOfEachRun = 3;

    public static TheoryData<BenchKind, int> Cases
    {
        get
        {
            TheoryData<BenchKind, int> cases = [];
            foreach (int seed in Enumerable.Range(1, Effort.Cases(SeedsOfEachRun, 40)))
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
        await using TestBench kept = await TestBench.OfAsync(kind), memory = await TestBench.OfAsync(BenchKind.Lines);
        var twins = new Twins(kept, memory);
        var hand = new RandomHand(seed, twins);
        await hand.ActAsync(Times);
        foreach (Func<Twin, Task<string>> view in Views.All)
        {
            await twins.DoAsync("looked at in the end", view);
        }

        // Something has really been done: saved and refused, jobs closed, and shims moved by them.
        int closed = (await memory.Bench.Jobs.ClosedAsync(0, 100, Cancel)).Count;
        IReadOnlyList<DrawerMove>[] moves = await Task.WhenAll((await memory.Bench.Drawer.LotsAsync(Cancel)).Select(l => memory.Bench.Drawer.HistoryAsync(l.Size, Cancel)));
        int ofJobs = moves.SelectMany(m => m).Count(m => m.Job is not null);
        Assert.True(hand.Saved > Times / 3 && hand.Refused > Times / 20, $"{hand.Saved} saved, {hand.Refused} refused");
        Assert.True((closed > 0 && ofJobs > 0) || seed > SeedsOfEachRun, $"{closed} closed, {ofJobs} moves of jobs");
    }
}
