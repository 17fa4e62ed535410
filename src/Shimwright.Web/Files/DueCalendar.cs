using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Due;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Due;
using Shimwright.Pages.Visits;
using Shimwright.Pages.Wording;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Files;

/// <summary>The checks that are due as a calendar (RFC 5545): a day for every engine whose day can be said.</summary>
internal static class DueCalendar
{
    private const int Most = 5000;

    /// <summary>How many stale forecasts are worked out while the calendar waits.</summary>
    private const int WorkedOutNow = 20;

    public static void MapDueCalendar(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/due/calendar.ics", Download).ForAccess(AccessRules.Look).ExcludeFromDescription();

    /// <summary>The calendar as text.</summary>
    /// <param name="engines">Engines, each with a day.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <param name="local">The day where the bench stands; what is overdue stands there, so that it is not missed.</param>
    public static string Write(IEnumerable<DueEngine> engines, BenchSettings settings, LocalTimes local)
    {
        var calendar = new Calendar { ProductId = "-//Shimwright//Checks due//EN", Method = "PUBLISH" };
        calendar.AddProperty("X-WR-CALNAME", "Valve clearance checks");
        foreach (DueEngine engine in engines)
        {
            if (engine.Forecast is { DueAt: { } due } forecast)
            {
                calendar.Events.Add(EventOf(engine, forecast, due, ClockStyle.Of(forecast.CountsKilometres, settings), local));
            }
        }

        return new CalendarSerializer().SerializeToString(calendar) ?? "";
    }

    private static CalendarEvent EventOf(DueEngine engine, KeptForecast forecast, DateTime due, ClockStyle clocks, LocalTimes local)
    {
        bool isLate = local.Date(due) < local.Today;
        DateOnly day = DateOnly.FromDateTime(isLate ? local.Today : local.Date(due));
        return new CalendarEvent
        {
            // The same engine is the same event, whenever the calendar is fetched: a later forecast moves it.
            Uid = $"check-{engine.Id:N}@shimwright.invalid",
            DtStamp = new CalDateTime(DateTime.SpecifyKind(local.Now, DateTimeKind.Utc), "UTC"),
            Start = new CalDateTime(day),
            End = new CalDateTime(day.AddDays(1)),
            Summary = $"Check valve clearances: {engine.Name}{(isLate ? " (overdue)" : "")}",
            Description = $"{DueWords.When(forecast, local, clocks)}.\n{DueWords.Behind(forecast, clocks)}\n{WearWords.Limits}\n{WorkOrder.Deference}",
            Transparency = TransparencyType.Transparent,
        };
    }

    private static async Task<ContentHttpResult> Download(IBench bench, TimeProvider time, CancellationToken cancel)
    {
        await bench.Due.RefreshStaleAsync(WorkedOutNow, cancel);
        BenchSettings settings = (await bench.Settings.CurrentAsync(cancel)).Settings;
        return TypedResults.Text(
            Write(await bench.Due.DatedAsync(Most, cancel), settings, LocalTimes.Of(settings, time)),
            "text/calendar", Encoding.UTF8);
    }
}
