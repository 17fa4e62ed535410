using Microsoft.EntityFrameworkCore;
using Shimwright.Bench.Due;
using Shimwright.Storage.Database;
using Shimwright.Storage.Engines;

namespace Shimwright.Storage.Due;

/// <summary>The lists: what is kept of each engine, the first due first.</summary>
internal sealed partial class DueStore
{
    private static readonly DateTime Never = DateTime.SpecifyKind(DateTime.MinValue, DateTimeKind.Utc);

    /// <inheritdoc/>
    public async Task<IReadOnlyList<DueEngine>> ListAsync(string? search, int skip, int take, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        IQueryable<EngineRow> engines = EngineStore.Found(context, search, retired: false);
        IQueryable<EngineRow> dated = Dated(context, engines);
        List<DueName> page = await NamesAsync(dated, skip, take, cancel);
        if (page.Count < take)
        {
            // Behind them, which is rarely looked at, all others are put in order.
            int passed = page.Count > 0 || skip == 0 ? skip : await dated.CountAsync(cancel);
            List<DueName> others = await NamesAsync(Undated(context, engines), Math.Max(0, skip - passed), take - page.Count, cancel);
            // One that was worked out between the two looks is there already.
            page.AddRange(others.ExceptBy(page.Select(e => e.Id).ToArray(), e => e.Id));
        }

        return await WithForecastsAsync(context, page, cancel);
    }

    /// <inheritdoc/>
    public async Task<IReadOnlyList<DueEngine>> DatedAsync(int most, CancellationToken cancel = default)
    {
        await using BenchContext context = _open();
        return await WithForecastsAsync(context, await NamesAsync(Dated(context, EngineStore.Found(context, null, retired: false)), 0, most, cancel), cancel);
    }

    /// <summary>
    /// Those that have a day, the first first: along an index, which stops where the page is full. SQLite goes along it for a day after another, not for
    /// one that is there at all.
    /// </summary>
    internal static IQueryable<EngineRow> Dated(BenchContext context, IQueryable<EngineRow> engines) => context.Forecasts.Where(f => f.DueAt > Never && f.Checks > 0)
        .Join(engines, f => f.EngineId, e => e.Id, (f, e) => new { Forecast = f, Engine = e })
        .OrderBy(r => r.Forecast.DueAt).ThenBy(r => r.Engine.Search).ThenBy(r => r.Engine.Id).Select(r => r.Engine);

    /// <summary>The others: those that have a clock, those of which nothing can be said, those that were never checked.</summary>
    private static IQueryable<EngineRow> Undated(BenchContext context, IQueryable<EngineRow> engines) => engines
        .LeftJoin(context.Forecasts, e => e.Id, f => f.EngineId, (e, f) => new { Engine = e, Forecast = f })
        .Where(r => r.Forecast == null || r.Forecast.DueAt == null || r.Forecast.Checks == 0)
        .OrderBy(r => r.Forecast == null || r.Forecast.Checks == 0 ? 2 : r.Forecast.CheckBy != null ? 0 : 1)
        .ThenBy(r => r.Engine.Search).ThenBy(r => r.Engine.Id).Select(r => r.Engine);

    private static Task<List<DueName>> NamesAsync(IQueryable<EngineRow> engines, int skip, int take, CancellationToken cancel) =>
        engines.Skip(skip).Take(take).Select(e => new DueName(e.Id, e.Name)).ToListAsync(cancel);

    /// <summary>Engines with their forecasts: a forecast is long, and only those that are shown are read.</summary>
    private static async Task<IReadOnlyList<DueEngine>> WithForecastsAsync(BenchContext context, IReadOnlyList<DueName> engines, CancellationToken cancel)
    {
        Guid[] ids = [.. engines.Select(e => e.Id)];
        Dictionary<Guid, KeptForecastRow> forecasts = await context.Forecasts.AsNoTracking().Where(f => ids.Contains(f.EngineId)).ToDictionaryAsync(f => f.EngineId, cancel);
        return [.. engines.Select(e => new DueEngine(e.Id, e.Name, ForecastRows.Shown(forecasts.GetValueOrDefault(e.Id))))];
    }

    private readonly record struct DueName(Guid Id, string Name);
}
