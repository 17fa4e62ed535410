using System.Text;
using Shimwright.Domain.Drawer;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Setups;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Due;

public class ShimOutlookTests
{
    private static readonly Dictionary<string, double> Access = new() { ["intake cam"] = 25, ["exhaust cam"] = 25 };

    [Fact]
    public void Of_ClosedJob_HasItsValvesAsTheLastCheckLeftThem()
    {
        (EngineOutlook outlook, EngineWear wear) = Closed();
        ShimOutlook shims = ShimOutlook.Of(outlook, wear, Access, new BenchSettings());
        Assert.Equal(wear.Now, shims.Valves.Select(v => v.State));
        Assert.Equal(wear.Engine.Valves.Select(v => v.Band), shims.Valves.Select(v => v.Band));
        Assert.Equal(wear.Engine.Valves.Select(v => outlook.Job.FittedAt(v)?.Millimetres), shims.Valves.Select(v => v.Shim));
        // A micrometer repeats to 0.002 and is itself known to 0.002. Common practice, no source.
        Assert.Equal(wear.Engine.Valves.Select(v => outlook.Job.FittedAt(v) is null ? 0 : 0.002 * Math.Sqrt(2)), shims.Valves.Select(v => v.ShimError), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.All(shims.Valves, v => Assert.True(v.Alone is >= 0.5 and < 1 && v.Along > v.Alone && v.Along < 1));
        Assert.Equal(wear.Engine.Valves.Select(v => v.Access).Distinct().Count(), shims.Valves.Select(v => v.Cover).Distinct().Count());
        Assert.Equal(0, shims.Unknown);
    }

    /// <summary>
    /// A valve that fails costs another round, its own cover and its change once more; the nearest size is a quarter of the smallest step off; a cover that stands alone is
    /// paid for with the change.
    /// </summary>
    [Fact]
    public void Of_ClosedJob_ChangesAValveWhereFailingCostsMore()
    {
        (EngineOutlook outlook, EngineWear wear) = Closed();
        var settings = new BenchSettings { Redo = 40, Swap = 7, KeepFloor = 0.1, Seating = 0.006, SizesToBuy = [new(2, 3, 0.1, 5), new(2, 3, 0.04, 5), new(2, 3, 0.05, 5)] };
        var access = new Dictionary<string, double> { ["intake cam"] = 12, ["exhaust cam"] = 31 };
        double error = Math.Sqrt((0.010 * 0.010) + (0.006 * 0.006) + (0.008 * 0.008));
        double Failing(string cover) => 40 + access[cover] + 7 + 5;
        Assert.All(wear.Engine.Valves.Zip(ShimOutlook.Of(outlook, wear, access, settings).Valves), pair =>
        {
            double half = pair.First.Band.Width / 2;
            double fitted = StandardNormal.Between((-half - 0.01) / error, (half - 0.01) / error);
            Assert.Equal(fitted - (7 / Failing(pair.First.Access)), pair.Second.Along, 1e-9);
            Assert.Equal(fitted - ((7 + access[pair.First.Access]) / Failing(pair.First.Access)), pair.Second.Alone, 1e-9);
        });
    }

    [Fact]
    public void Write_ThenRead_WantsTheSame()
    {
        (EngineOutlook outlook, EngineWear wear) = Closed();
        ShimOutlook shims = ShimOutlook.Of(outlook, wear, Access, new BenchSettings());
        ShimOutlook again = ShimOutlook.Read(shims.Write());
        Assert.Equal((shims.Ratio, shims.Diffusion), (again.Ratio, again.Diffusion));
        Assert.Equal(shims.Valves, again.Valves);
        Assert.Equal(shims.WantsAfter(40), again.WantsAfter(40));
        Assert.Empty(ShimOutlook.Read(ShimOutlook.None.Write()).Valves);
    }

    [Fact]
    public void Read_ShimThatIsNotKnown_WantsNothingAndIsCounted()
    {
        var outlook = new ShimOutlook(1, 1e-9, [new(new(0.1, 0, 1e-4, 0, 0), new(0.12, 0.18), null, 0, 0.5, 0.9, 0), new(new(0.1, 0, 1e-4, 0, 0), new(0.12, 0.18), 2.5, 0.008, 0.5, 0.9, 0)]);
        ShimOutlook again = ShimOutlook.Read(outlook.Write());
        Assert.Equal(1, again.Unknown);
        ThicknessWant want = Assert.Single(again.WantsAfter(0));
        Assert.Equal(2.45, want.Middle, 1e-9);
        Assert.Equal(0.008, want.Blur);
    }

    /// <summary>What is open for a tight valve lets a fair one be changed along with it; what is closed does not.</summary>
    [Fact]
    public void WantsAfter_ValveBehindTheCoverOfATightOne_IsWantedMore()
    {
        static double Fair(int cover) => new ShimOutlook(1, 1e-9,
        [
            new(new(0.06, 0, 1e-6, 0, 0), new(0.12, 0.18), 2.5, 0.008, 0.5, 0.9, 0),
            new(new(0.135, 0, 1e-4, 0, 0), new(0.12, 0.18), 2.5, 0.008, 0.5, 0.9, cover),
        ]).WantsAfter(0)[1].Wanted;
        Assert.True(Fair(cover: 0) > Fair(cover: 1) + 0.1, $"{Fair(0)} {Fair(1)}");
    }

    [Fact]
    public void WantsAfter_MoreRunning_MovesWhatIsWantedByTheLossAndIsLessSure()
    {
        (EngineOutlook outlook, EngineWear wear) = Closed();
        ShimOutlook shims = ShimOutlook.Of(outlook, wear, Access, new BenchSettings());
        IReadOnlyList<ThicknessWant> now = shims.WantsAfter(0), later = shims.WantsAfter(100);
        Assert.All(now.Zip(later).Zip(shims.Valves), w =>
        {
            Assert.Equal(w.First.First.Middle - (100 * w.Second.State.Rate / shims.Ratio), w.First.Second.Middle, 1e-9);
            Assert.True(w.First.Second.StandardDeviation > w.First.First.StandardDeviation);
        });
        Assert.Throws<ArgumentOutOfRangeException>(() => shims.WantsAfter(-1));
    }

    private static (EngineOutlook Outlook, EngineWear Wear) Closed()
    {
        ParsedSetup reading = JobSetup.FromFile(Encoding.UTF8.GetBytes(Demo.Text("01-flood-pump.json")));
        JobFact[] facts = [.. reading.Facts.Where(f => f is ReadingFact { Part: SheetPart.Check } or ThicknessFound), new JobClosed(120, "", "", "")];
        JobSheet sheet = JobSheet.Of(reading.Setup!, [.. facts.Select((f, i) => new JobEntry(i + 1, Guid.NewGuid(), "phone", DateTime.UnixEpoch, f))]);
        EngineOutlook outlook = EngineOutlook.Of(reading.Setup!.Card, [new(Guid.NewGuid(), sheet, PastOrigin.File)], new BenchSettings(), null)!;
        return (outlook, outlook.Job.ToEngineWear(outlook.Card));
    }
}
