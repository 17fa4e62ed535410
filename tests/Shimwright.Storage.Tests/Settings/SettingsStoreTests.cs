using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Settings;
using Shimwright.Jobs.Settings;
using Shimwright.Storage.Database;
using Shimwright.Storage.Tests.Samples;
using static Shimwright.Storage.Tests.Samples.SampleBench;

namespace Shimwright.Storage.Tests.Settings;

public class SettingsStoreTests
{
    [Theory]
    [OnEachDatabase]
    public async Task CurrentAsync_NobodySavedAny_AreTheUsualOnes(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        StoredSettings settings = await database.Bench.Settings.CurrentAsync(Cancel);
        Assert.Equal(0, settings.Version);
        Assert.Equivalent(new BenchSettings(), settings.Settings, strict: true);
    }

    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_OverWhatAnotherDeviceSaved_IsRefused(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        ISettings settings = database.Bench.Settings;
        Assert.True(await settings.SaveAsync(new() { Redo = 70, Currency = "½é" }, 0, "phone", Cancel));
        Assert.False(await settings.SaveAsync(new() { Redo = 80 }, 0, "tablet", Cancel));
        Assert.True(await settings.SaveAsync(new() { Redo = 90 }, 1, "tablet", Cancel));
        StoredSettings now = await settings.CurrentAsync(Cancel);
        Assert.Equal((2, 90), (now.Version, now.Settings.Redo));

        // Every state is kept.
        await using BenchContext context = database.Bench.NewContext();
        SettingsRow first = await context.Settings.OrderBy(s => s.Version).FirstAsync(Cancel);
        Assert.Equal(("phone", "½é"), (first.Device, BenchSettings.Read(first.Settings).Currency));
    }

    [Theory]
    [OnEachDatabase]
    public async Task SaveAsync_EightDevicesAtOnce_OneIsSaved(DatabaseKind kind)
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(kind);
        bool[] saved = await Task.WhenAll(Enumerable.Range(0, 8).Select(n => Task.Run(
            () => database.Another().Settings.SaveAsync(new() { Redo = n }, 0, $"device {n}", Cancel), Cancel)));
        Assert.Equal(1, saved.Count(s => s));
        Assert.Equal(Array.IndexOf(saved, true), (await database.Bench.Settings.CurrentAsync(Cancel)).Settings.Redo);
    }

    [Fact]
    public async Task SaveAsync_SettingsWithAProblem_Throws()
    {
        await using TestDatabase database = await TestDatabase.PreparedAsync(DatabaseKind.Sqlite);
        await Assert.ThrowsAsync<ArgumentException>(() => database.Bench.Settings.SaveAsync(new() { Redo = double.NaN }, 0, "phone", Cancel));
        await Assert.ThrowsAsync<ArgumentException>(() => database.Bench.Settings.SaveAsync(new(), 0, new string('x', 201), Cancel));
    }
}
