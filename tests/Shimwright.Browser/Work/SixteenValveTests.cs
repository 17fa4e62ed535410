using System.Globalization;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;

namespace Shimwright.Browser.Work;

/// <summary>
/// What sixteen valves cost a thumb on a small phone: taps, page loads and scrolls, counted and written beside the screenshots. The person
/// does what the page proposes and nothing else; the gaps are those of an engine that is played.
/// </summary>
public sealed class SixteenValveTests(PreparedBench bench, Chromium chromium) : IClassFixture<PreparedBench>
{
    /// <summary>What the work may cost; common practice has no figure, these are the project's own aims.</summary>
    private const int MostTaps = 28;

    /// <summary>Four valves wrong, the rest where wear leaves them: nothing stands on an edge by more than a hair.</summary>
    private static readonly PlayedEngine Engine = new(
        new()
        {
            ["I1"] = 0.126,
            ["I2"] = 0.083,
            ["I3"] = 0.121,
            ["I4"] = 0.135,
            ["I5"] = 0.134,
            ["I6"] = 0.142,
            ["I7"] = 0.131,
            ["I8"] = 0.119,
            ["E1"] = 0.196,
            ["E2"] = 0.148,
            ["E3"] = 0.202,
            ["E4"] = 0.212,
            ["E5"] = 0.205,
            ["E6"] = 0.152,
            ["E7"] = 0.209,
            ["E8"] = 0.216,
        },
        []);

    [Fact]
    public async Task Measure_SixteenValves_TakesFewTapsNoLoadAndNoScroll()
    {
        await using BenchWindow window = await chromium.OpenAsync(bench.Address, Screen.Small);
        await window.GoAsync($"/engines/{bench.Workshop.SixteenEngine}");
        await new NewEngineRoom(window.Page).StartJobAsync("130000");
        var room = new ReadingRoom(window.Page, "Measure");
        int loads = 0;
        window.Page.Load += (_, _) => loads++;
        int scrolled = await MeasureAsync(window.Page, room);

        IReadOnlyDictionary<string, string> head = await room.HeadAsync();
        Assert.Equal(16, head.Count);
        Assert.All(["I2", "E2", "E6"], v => Assert.Contains("out of band", head[v], StringComparison.Ordinal));
        Counted.Write("measure 16 valves", room.Taps, loads, scrolled);
        Assert.InRange(room.Taps, 16, MostTaps);
        Assert.Equal((0, 0), (loads, scrolled));
        window.AssertQuiet();
    }

    /// <summary>Feels what the page proposes until it proposes nothing more.</summary>
    /// <returns>How often the page had to be scrolled.</returns>
    internal static async Task<int> MeasureAsync(IPage page, ReadingRoom room)
    {
        int scrolled = 0;
        ILocator goesOn = page.Locator(".next-up a.first");
        await room.TurnCrankAsync();
        while (await goesOn.CountAsync() == 0 || (await goesOn.InnerTextAsync()).StartsWith("Next:", StringComparison.Ordinal))
        {
            Assert.True(room.Taps < 100, "No end in sight.");
            string valve = (await page.Locator("#valve h2").InnerTextAsync()).Split(',')[0];
            double blade = double.Parse((await page.Locator("input[name='Tap.Blade']:checked").GetAttributeAsync("value"))!, CultureInfo.InvariantCulture);
            await room.FeelAsync(Engine.Feel(valve, blade));
            await room.TurnCrankAsync();
            scrolled += await page.EvaluateAsync<int>("() => scrollY > 0 ? 1 : 0");
        }

        return scrolled;
    }
}
