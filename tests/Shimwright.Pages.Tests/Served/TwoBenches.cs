using Shimwright.Bench;
using Shimwright.Bench.InMemory;
using Shimwright.Pages.Tests.Samples;
using Shimwright.Pages.Tests.Visits;
using Shimwright.Storage;
using Shimwright.Testing.Workshop;

namespace Shimwright.Pages.Tests.Served;

/// <summary>
/// Two benches on which the same was done at the same time: one in a database, whose pages come from the real server, one in memory,
/// whose pages come from visits without any. Whatever is asked or sent goes to both, and what comes must be the same.
/// </summary>
public sealed class TwoBenches : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("shimwright-pages-").FullName;
    private readonly StillTime _servedTime = new(), _visitedTime = new();
    private ServedSide _served = null!;
    private VisitedSide _visited = null!;

    /// <summary>The forms that have come.</summary>
    internal ReadForms Forms { get; } = new();

    public async ValueTask InitializeAsync()
    {
        var database = BenchDatabase.At(Path.Combine(_folder, "bench.db"), _servedTime);
        await database.PrepareAsync();
        _served = await ServedSide.StartAsync(database, await FillAsync(database, _servedTime), _servedTime);
        MemoryBench memory = new(_visitedTime);
        _visited = new VisitedSide(await FillAsync(memory, _visitedTime), memory, _visitedTime, _served.Address, Forms);
        Assert.Equal(_servedTime.GetUtcNow(), _visitedTime.GetUtcNow());
    }

    public async ValueTask DisposeAsync()
    {
        await _visited.DisposeAsync();
        await _served.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>Asks both for a page.</summary>
    /// <param name="path">Where it lies on the one and on the other: ids that a bench gives are its own.</param>
    /// <returns>The page, which is the same.</returns>
    internal Task<Ending> AskAsync(Func<FullWorkshop, string> path) => AskAsync(path(_served.Workshop), path(_visited.Workshop));

    /// <summary>Asks both for a page and reads its forms, which are the same.</summary>
    internal async Task<IReadOnlyList<TwinForm>> FormsOfAsync(Func<FullWorkshop, string> path)
    {
        string served = path(_served.Workshop), visited = path(_visited.Workshop);
        (Ending ending, string html) = await _served.GoAsync(served);
        (Ending twin, string same) = await _visited.GoAsync(visited);
        twin.IsThatOf(ending, served);
        return [.. FilledForm.Of(served, html).Zip(FilledForm.Of(visited, same), (s, v) => new TwinForm(s, v))];
    }

    /// <summary>Sends a form to both, and goes with both where that leads.</summary>
    /// <returns>How it ended, which is the same.</returns>
    internal async Task<Ending> SendAsync(TwinForm form)
    {
        _servedTime.GoOn();
        _visitedTime.GoOn();
        (Ending served, _) = await _served.GoAsync(form.Served.Address, form.Served);
        (Ending visited, _) = await _visited.GoAsync(form.Visited.Address, form.Visited);
        visited.IsThatOf(served, $"{form.Served.Address}: {string.Join(' ', form.Served.Fields)}");
        if (served.Next is not null)
        {
            await AskAsync(new Uri(served.Next).PathAndQuery, new Uri(visited.Next!).PathAndQuery);
        }

        return served;
    }

    private async Task<Ending> AskAsync(string served, string visited)
    {
        (Ending ending, _) = await _served.GoAsync(served);
        (Ending twin, _) = await _visited.GoAsync(visited);
        twin.IsThatOf(ending, served);
        return ending;
    }

    private static async Task<FullWorkshop> FillAsync(IBench bench, StillTime time)
    {
        FullWorkshop workshop = new(bench, NewId, DemoFile.Read);
        await workshop.FillAsync();
        await workshop.AddPastWorkAsync();
        await bench.Due.RefreshStaleAsync(100);
        return workshop;

        // One thing after the other: lists are in the order of time.
        Guid NewId()
        {
            time.GoOn();
            return Guid.CreateVersion7(time.GetUtcNow());
        }
    }
}
