using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Bench.Settings;
using Shimwright.Storage;
using Shimwright.Storage.Database;
using Shimwright.Testing.Served;

namespace Shimwright.Load;

/// <summary>A fleet whose forecasts have all become stale at once, as after another limit of risk: how long the server takes to work them out anew, and what pages take meanwhile.</summary>
internal static class FleetRefresh
{
    private const double PerSecond = 20;
    private const int Slowest = 8;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(20), Slice = TimeSpan.FromSeconds(5), Longest = TimeSpan.FromMinutes(10);
    private static readonly string[] Asked = ["bench", "engines", "engine", "measure", "record", "due", "settings"];

    public static async Task<int> RunAsync(TextWriter to, string file, int engines, bool isOneCard)
    {
        long start = Stopwatch.GetTimestamp();
        var database = BenchDatabase.At(file, TimeProvider.System);
        FilledBench bench = await FilledBench.MakeAsync(database, engines, engines + (engines / 5), isOneCard);
        SqliteConnection.ClearAllPools();
        to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{engines} engines, filled in {Stopwatch.GetElapsedTime(start).TotalSeconds:0} s"));

        await using ServedBench server = await ServedBench.StartAsync(file, Path.GetDirectoryName(file)!, null, []);
        using var client = new HttpClient { BaseAddress = server.Address };
        client.DefaultRequestHeaders.Add("Cookie", $"script=1; shimwright-device={Guid.CreateVersion7(TimeProvider.System.GetUtcNow()):N}");
        (string Page, Func<string> Address)[] pages = [.. LoadPages.Of(bench).Where(p => Asked.Contains(p.Page))];
        OpenLoop loop = new(client, PerSecond);
        await loop.RunAsync(pages, WarmUp);
        IReadOnlyList<Answered> idle = await loop.RunAsync(pages, WarmUp);

        StoredSettings settings = await database.Settings.CurrentAsync();
        await database.Settings.SaveAsync(settings.Settings with { Risk = settings.Settings.Risk / 2 }, settings.Version, "load");
        string mark = Forecaster.MarkOf((await database.Settings.CurrentAsync()).Settings);
        TimeSpan before = server.ProcessorTime;
        long begun = 0, saved = Stopwatch.GetTimestamp();
        List<Answered> meanwhile = [];
        int left = engines;
        while (left > 0 && Stopwatch.GetElapsedTime(saved) < Longest)
        {
            meanwhile.AddRange(await loop.RunAsync(pages, Slice));
            await using BenchContext context = database.NewContext();
            left = engines - await context.Forecasts.CountAsync(f => f.SettingsMark == mark);
            // The keeper looks now and then: its time counts from the slice in which it had begun.
            begun = begun == 0 && left < engines ? Stopwatch.GetTimestamp() : begun;
            to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Stopwatch.GetElapsedTime(saved).TotalSeconds:0} s: {left} left"));
        }

        to.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"worked out anew in {Stopwatch.GetElapsedTime(begun).TotalSeconds:0} to {(Stopwatch.GetElapsedTime(begun) + Slice).TotalSeconds:0} s, {(server.ProcessorTime - before).TotalSeconds:0} s of a processor with the pages; {left} left"));
        LatencyTable.Print(to, idle, [.. meanwhile.Select(a => a with { Page = a.Page + ", meanwhile" })], new Dictionary<string, double>());
        foreach (Answered slow in meanwhile.OrderByDescending(a => a.Milliseconds).Take(Slowest))
        {
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"{slow.Page}: {slow.Milliseconds:0} ms, {Stopwatch.GetElapsedTime(saved, slow.Due).TotalSeconds:0.0} s after the change"));
        }

        return left == 0 && meanwhile.All(a => a.Status == 200) ? 0 : 1;
    }
}
