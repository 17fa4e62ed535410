using Shimwright.Bench.Contents;
using Shimwright.Bench.Following;
using Shimwright.Bench.Jobs;
using Shimwright.Testing;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Following;

/// <summary>
/// Two phones and a bench: half an hour without a net, some hundred taps on jobs that all have and on those of their own, the drawer among them; then a
/// net that is cut by chance. In the end every tap is once everywhere, all three are equal, and what was not taken is said.
/// </summary>
[Long]
public class StepTests
{
    private const int Taps = 400, Minutes = 30, MostSteps = 60;

    public static TheoryData<BenchKind, int> Cases
    {
        get
        {
            TheoryData<BenchKind, int> cases = [];
            foreach (int seed in Enumerable.Range(1, Effort.Cases(100, 1000)))
            {
                cases.Add(seed % 25 == 0 ? seed % 50 == 0 ? BenchKind.Postgres : BenchKind.Sqlite : BenchKind.Memory, seed);
            }

            return cases;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task Steps_TwoPhonesAndABenchWithCuts_EndEqualWithEveryTapOnce(BenchKind kind, int seed)
    {
        await using TestBench shop = await TestBench.OfAsync(kind);
        var random = new Random(seed);
        foreach (string name in new[] { "Flood pump 7", "Hay baler" })
        {
            Guid engine = Guid.NewGuid();
            await shop.Bench.Engines.AddAsync(engine, name, Card(name), new() { ShimDiameter = 9.48 }, cancel: Cancel);
        }

        await shop.Bench.StartJobAsync((await shop.Bench.Engines.ListAsync(null, 0, 1, Cancel))[0].Id);
        await shop.Bench.Drawer.CountAsync([new(new(9480, 2400, "micrometer"), 2), new(new(9480, 2500, "micrometer"), 2)], new(Guid.NewGuid(), "bench"), Cancel);
        SimulatedPocket[] phones = [new(shop.Bench, shop.Time, "Ann's phone", TimeSpan.FromMinutes(7)), new(shop.Bench, shop.Time, "Bob's phone", TimeSpan.FromDays(-400))];
        foreach (SimulatedPocket phone in phones)
        {
            await phone.Follower.JoinAsync([]);
            Assert.True(await phone.StepAsync());
        }

        var taps = new RandomTaps(seed, shop.Time);
        for (int n = 0; n < Taps; n++)
        {
            shop.Time.Pass(TimeSpan.FromMinutes(Minutes) / Taps);
            await TapAsync(random.Next(5));
        }

        for (int n = 0; n < MostSteps; n++)
        {
            Cut cut = n < MostSteps - 12 && random.Next(3) == 0 ? (Cut)random.Next(1, 6) : Cut.None;
            int who = random.Next(2);
            await phones[who].StepAsync(cut, random.Next(4), n < MostSteps / 2 && random.Next(4) == 0 ? () => TapAsync(1 + (2 * who)) : null);
            if (n < MostSteps / 2)
            {
                shop.Time.Pass(TimeSpan.FromSeconds(5));
                await TapAsync(random.Next(5));
            }
        }

        for (int n = 0; n < 2; n++)
        {
            foreach (SimulatedPocket phone in phones)
            {
                Assert.True(await phone.StepAsync());
            }
        }

        BenchContents there = await shop.Bench.Copies.ContentsAsync(Cancel);
        string text = Written(there);
        foreach (SimulatedPocket phone in phones)
        {
            Assert.Equal(0, phone.Follower.Pending);
            Assert.Equal(text, Written(phone.Contents));
            Assert.Equal(text, Written(phone.Stored));
            // Nobody is told of a conflict with what was entered on the same phone.
            foreach (LeftDeed left in phone.Follower.Left.Where(l => l is { Deed: InStep.FactsAdded, Answer.Outcome: AddOutcome.Conflict }))
            {
                KeptFact[] between = [.. there.Facts.Where(f => f.Job == left.Deed.OfJob && left.Answer.Unseen.Contains(f.Number))];
                Assert.NotEmpty(between);
                Assert.All(between, f => Assert.NotEqual(phone.Device, f.Device));
            }
        }

        AssertEveryTapIsThereOnceOrSaid(taps.Taps, there, [.. phones.SelectMany(p => p.Follower.Left)]);

        async Task TapAsync(int drawn)
        {
            int by = drawn == 0 ? 0 : 1 + ((drawn - 1) / 2);
            await taps.TapAsync(by, by == 0 ? shop.Bench : phones[by - 1].Bench);
        }
    }

    private static void AssertEveryTapIsThereOnceOrSaid(List<Tap> taps, BenchContents there, LeftDeed[] left)
    {
        ILookup<Guid, KeptFact> facts = there.Facts.ToLookup(f => f.Action);
        HashSet<Guid> jobs = [.. there.Jobs.Select(j => j.Action)], entries = [.. there.Ledger.Select(l => l.Action)], said = [.. left.Select(l => l.Deed.Id)];
        // What was not taken and taken back again on the same phone is said to nobody.
        Tap[] missing = [.. taps.Where(t => !facts[t.Action].Any() && !jobs.Contains(t.Action) && !entries.Contains(t.Action) && !said.Contains(t.Action))];
        Assert.True(missing.All(t => t.By > 0 && t.Facts > 0) && missing.Length <= taps.Count / 20, string.Join("\n", missing.Select(m => m.ToString())));
        foreach (Tap tap in taps.Where(t => facts[t.Action].Any() && !jobs.Contains(t.Action)))
        {
            // A plan from the drawer writes down with it what lay there.
            int more = facts[tap.Action].Count() - tap.Facts;
            Assert.True(more == 0 || (more == 1 && facts[tap.Action].Any(f => f.Fact.Contains("\"stock\"", StringComparison.Ordinal))), $"{tap}: {more} more facts");
            // Kept with the time at which it was done, whatever the phone's clock says.
            Assert.All(facts[tap.Action], f => Assert.True((f.At - tap.At).Duration() < TimeSpan.FromSeconds(1), $"{tap}: kept at {f.At:O}"));
        }

        Assert.DoesNotContain(left, l => l.Answer.Outcome == AddOutcome.Reused);
        Assert.All(left.Where(l => l.Answer.Outcome == AddOutcome.Conflict), l => Assert.True(l.Answer.Unseen.Count + l.Answer.Problems.Count > 0, $"{l}"));
        Assert.Equal(there.Facts.Select(f => (f.Job, f.Number)).Distinct().Count(), there.Facts.Count);
        Assert.True(there.Ledger.Select(e => e.Number).SequenceEqual(Enumerable.Range(1, there.Ledger.Count)));
    }

    private static string Written(BenchContents contents)
    {
        using MemoryStream archive = new();
        BenchArchive.Write(contents with { Promises = [.. contents.Promises.Where(p => p.Promised.Count > 0)] }, default, archive);
        using System.IO.Compression.ZipArchive zip = new(archive, System.IO.Compression.ZipArchiveMode.Read);
        return string.Join('\n', zip.Entries.Where(e => e.Name != "manifest.json").Select(e => $"{e.Name}\n{new StreamReader(e.Open()).ReadToEnd()}"));
    }
}
