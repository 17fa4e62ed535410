using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Shimwright.Bench.Due;
using Shimwright.Jobs.Due;
using Shimwright.Jobs.Settings;
using Shimwright.Web.Files;

namespace Shimwright.Web.Tests.Files;

/// <summary>The calendar against the rules of RFC 5545 and against what reads such calendars.</summary>
public class DueCalendarTests
{
    private static readonly DateTime Today = new(2026, 5, 4, 0, 0, 0, DateTimeKind.Utc);
    private static readonly DateTime Now = new(2026, 5, 4, 7, 30, 0, DateTimeKind.Utc);
    private static readonly Guid One = new("11111111-2222-3333-4444-555555555555");

    [Fact]
    public void Write_EngineWithADay_IsAnAllDayEventOfOneDay()
    {
        CalendarEvent entry = Assert.Single(Read(Text(Engine("Flood pump 7", Today.AddDays(10)))).Events);
        Assert.Equal(("Check valve clearances: Flood pump 7", true), (entry.Summary, entry.IsAllDay));
        Assert.Equal(new DateOnly(2026, 5, 14), entry.Start!.Date);
        Assert.Equal(new DateOnly(2026, 5, 15), entry.End!.Date);
        Assert.Contains("(at 141.2 h)", entry.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_FetchedAgainWithALaterDay_IsTheSameEvent()
    {
        CalendarEvent first = Read(Text(Engine("Flood pump 7", Today.AddDays(10)))).Events.Single();
        CalendarEvent again = Read(Text(Engine("Renamed", Today.AddDays(12)))).Events.Single();
        Assert.Equal(first.Uid, again.Uid);
        Assert.Equal("check-11111111222233334444555555555555@shimwright.invalid", first.Uid);
    }

    [Fact]
    public void Write_Overdue_StandsOnToday()
    {
        CalendarEvent entry = Read(Text(Engine("Flood pump 7", Today.AddDays(-3)))).Events.Single();
        Assert.Equal(DateOnly.FromDateTime(Today), entry.Start!.Date);
        Assert.EndsWith("(overdue)", entry.Summary, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Pump; shed, north \\ \"old\"")]
    [InlineData("Two\nlines")]
    [InlineData("Été øst 機械 a very long name that does not fit on one line of seventy-five octets, and goes on and on 機械機械機械機械機械機械")]
    public void Write_AnyName_ComesBackWhole(string name)
    {
        CalendarEvent entry = Read(Text(Engine(name, Today))).Events.Single();
        Assert.Equal($"Check valve clearances: {name}", entry.Summary);
    }

    /// <summary>RFC 5545, 3.1: lines end in CRLF and are at most 75 octets, folded with a space; 3.3.11: commas, semicolons and backslashes of a text are escaped.</summary>
    [Fact]
    public void Write_LongTexts_KeepTheRulesOfTheFormat()
    {
        string text = Text(Engine("Pump; shed, north \\ " + new string('é', 120), Today.AddDays(3)), Engine("Other", null));
        Assert.EndsWith("END:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', text.Replace("\r\n", "", StringComparison.Ordinal));
        string[] lines = text.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.All(lines, l => Assert.InRange(Encoding.UTF8.GetByteCount(l), 1, 75));
        string unfolded = text.Replace("\r\n ", "", StringComparison.Ordinal);
        Assert.Contains(@"Pump\; shed\, north \\ é", unfolded, StringComparison.Ordinal);
        Assert.Contains("VERSION:2.0\r\n", unfolded, StringComparison.Ordinal);
        Assert.Contains("PRODID:", unfolded, StringComparison.Ordinal);
        Assert.Contains("DTSTART;VALUE=DATE:20260507\r\n", unfolded, StringComparison.Ordinal);
        Assert.Contains("DTSTAMP:20260504T073000Z\r\n", unfolded, StringComparison.Ordinal);
        Assert.Equal(1, unfolded.Split("BEGIN:VEVENT").Length - 1);
    }

    private static Calendar Read(string text) => Calendar.Load(text)!;

    private static string Text(params DueEngine[] engines) => DueCalendar.Write(engines, new BenchSettings(), new(TimeZoneInfo.Utc, Now));

    private static DueEngine Engine(string name, DateTime? due) => new(One, name, new KeptForecast(
        3, 118, 141.2, false, new(119, Today.AddDays(-20)), new(5, UsageSource.Stated), due, 0.1, [new(118, 0.01), new(148, 0.3)]));
}
