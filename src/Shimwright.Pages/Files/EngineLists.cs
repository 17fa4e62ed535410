using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Due;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Files;

/// <summary>The engines, when each is due, and how the valves of one wear.</summary>
internal static class EngineLists
{
    /// <summary>How many stale forecasts are worked out while the file waits.</summary>
    private const int WorkedOutNow = 20;

    public static BenchList Engines { get; } = BenchList.Of<(EngineSummary Engine, bool IsInUse, string? Unit)>("Engines", "/engines/engines.csv",
    [
        new("engine", "name", e => e.Engine.Name),
        new("engine_id", "the bench's id for it", e => e.Engine.Id),
        new("card", "its card", e => e.Engine.CardTitle),
        new("in_use", "no: it is retired", e => e.IsInUse),
        new("open_jobs", "open jobs on it", e => e.Engine.OpenJobs),
        new("last_clock", "its clock at the last check", e => e.Engine.LastClock),
        new("clock_unit", "h or km", e => e.Unit),
    ],
    async ask =>
    {
        ClockUnits units = new(ask.Bench, ask.Cancel);
        return (await units.EnginesAsync()).Select(e => (e.Engine, e.IsInUse, units.Of(e.Engine.Id)));
    });

    public static BenchList Due { get; } = BenchList.Of<(DueEngine Engine, LocalTimes Local)>("When engines are due", "/due/due.csv",
    [
        new("engine", "name", e => e.Engine.Name),
        new("engine_id", "the bench's id for it", e => e.Engine.Id),
        new("due_on", "day of the next check; blank without usage", e => e.Engine.Forecast?.DueAt is { } due ? DateOnly.FromDateTime(e.Local.Date(due)) : null),
        new("check_by", "clock of the next check", e => e.Engine.Forecast?.CheckBy),
        new("last_clock", "clock last known", e => e.Engine.Forecast?.Last.Clock),
        new("last_known_on", "day on which it was known", e => e.Engine.Forecast is { } f ? DateOnly.FromDateTime(e.Local.Date(f.Last.At)) : null),
        new("usage_per_week", "usage per week, in clock_unit", e => e.Engine.Forecast?.Usage.PerWeek),
        new("clock_unit", "h or km", e => e.Engine.Forecast is { } f ? ClockStyle.KeptUnit(f.CountsKilometres) : null),
        new("checks", "how often it was checked", e => e.Engine.Forecast?.Checks),
        new("risk_limit", "chance of a valve out of band at which a check is due, 0 to 1", e => e.Engine.Forecast?.Risk),
    ],
    async ask =>
    {
        await ask.Bench.Due.RefreshStaleAsync(WorkedOutNow, ask.Cancel);
        var local = LocalTimes.Of((await ask.Bench.Settings.CurrentAsync(ask.Cancel)).Settings, ask.Time);
        return (await ask.Bench.Due.ListAsync(null, 0, BenchLists.MostRows, ask.Cancel)).Select(e => (e, local));
    });

    public static BenchList Wear { get; } = BenchList.Of<(WearRow Row, WearView View, string Unit)>("Wear of an engine, a row per valve", "/engines/{id:guid}/wear.csv",
    [
        new("valve", "valve", w => w.Row.Valve.Id),
        new("cylinder", "cylinder", w => w.Row.Valve.Cylinder),
        new("side", "intake or exhaust", w => Words.Of(w.Row.Valve.Side)),
        new("low_mm", "the maker's lower limit", w => w.Row.Valve.Band.Low),
        new("high_mm", "the maker's upper limit", w => w.Row.Valve.Band.High),
        new("clearance_mm", "clearance after the last check, at 20 °C", w => w.Row.Now.Clearance),
        new("clearance_sd_mm", "its standard deviation", w => w.Row.Now.ClearanceSpread),
        new("clock", "clock of that check", w => w.View.Wear.Clock),
        new("clock_unit", "h or km", w => w.Unit),
        new("interval", "the maker's interval, in clock_unit", w => w.View.Interval),
        new("loss_per_interval_mm", "clearance lost in an interval", w => w.Row.Forecast.LossPerInterval),
        new("loss_per_interval_sd_mm", "its standard deviation", w => w.Row.Forecast.SdLossPerInterval),
        new("chance_out", "chance of being out of band within an interval, 0 to 1", w => w.Row.Forecast.ChanceOutAtInterval),
        new("shim_room_mm", "shim above the thinnest one; blank where not known", w => w.Row.Forecast.RoomLeft?.Mm),
        new("shim_room_lasts", "how long that lasts, in clock_unit", w => w.Row.Forecast.RoomLeft?.Clock),
        new("taken_up_mm", "clearance taken up since the first record", w => w.Row.Forecast.Recession?.Mm),
    ],
    async ask =>
    {
        if (await ask.Bench.Engines.FindAsync(ask.Id("id"), ask.Cancel) is not { } engine)
        {
            return null;
        }

        BenchSettings settings = (await ask.Bench.Settings.CurrentAsync(ask.Cancel)).Settings;
        bool countsKilometres = engine.Card.Wear is { CountsKilometres: true };
        if (await ask.Bench.Due.OutlookAsync(engine.Id, ask.Cancel) is not { } outlook)
        {
            return [];
        }

        WearView view = new(outlook, ClockStyle.Of(countsKilometres, settings), LengthStyle.Millimetres);
        return view.Valves.Select(row => (row, view, ClockStyle.KeptUnit(countsKilometres)));
    });
}
