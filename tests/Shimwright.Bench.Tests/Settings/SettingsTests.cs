using Shimwright.Bench.Settings;
using Shimwright.Jobs.Settings;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Settings;

public class SettingsTests
{
    [Theory]
    [OnEachBench]
    public async Task CurrentAsync_NobodySavedAny_AreTheUsualOnes(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        StoredSettings settings = await test.Bench.Settings.CurrentAsync(Cancel);
        Assert.Equal(0, settings.Version);
        Assert.Equivalent(new BenchSettings(), settings.Settings, strict: true);
    }

    [Theory]
    [OnEachBench]
    public async Task SaveAsync_OverWhatAnotherDeviceSaved_IsRefused(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        ISettings settings = test.Bench.Settings;
        Assert.True(await settings.SaveAsync(new() { Redo = 70, Currency = "½é" }, 0, "phone", Cancel));
        Assert.False(await settings.SaveAsync(new() { Redo = 80 }, 0, "tablet", Cancel));
        Assert.True(await settings.SaveAsync(new() { Redo = 90 }, 1, "tablet", Cancel));
        StoredSettings now = await settings.CurrentAsync(Cancel);
        Assert.Equal((2, 90), (now.Version, now.Settings.Redo));
    }

    [Theory]
    [OnEachBench]
    public async Task SaveAsync_EightDevicesAtOnce_OneIsSaved(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        bool[] saved = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => test.Another().Settings.SaveAsync(new() { Redo = n }, 0, $"device {n}", Cancel), Cancel)));
        Assert.Equal(1, saved.Count(s => s));
        Assert.Equal(Array.IndexOf(saved, true), (await test.Bench.Settings.CurrentAsync(Cancel)).Settings.Redo);
    }

    [Theory]
    [OnEachBench]
    public async Task SaveAsync_SettingsWithAProblem_Throws(BenchKind kind)
    {
        await using TestBench test = await TestBench.OfAsync(kind);
        await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Settings.SaveAsync(new() { Redo = double.NaN }, 0, "phone", Cancel));
        await Assert.ThrowsAsync<ArgumentException>(() => test.Bench.Settings.SaveAsync(new(), 0, new string('x', 201), Cancel));
    }
}
