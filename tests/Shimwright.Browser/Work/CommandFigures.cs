using System.Globalization;
using System.Text.Json;
using Shimwright.Browser.Rooms;
using Shimwright.Browser.Running;

namespace Shimwright.Browser.Work;

/// <summary>What the program's commands say of a job file, held against what a page shows of the same job.</summary>
internal static class CommandFigures
{
    /// <summary>The plan page shows what "shimwright plan" answers, figure by figure.</summary>
    public static async Task AssertPlanAsync(string file, PlanRoom room)
    {
        using var answer = JsonDocument.Parse(await ProgramCommand.RunAsync("plan", file, "--json"));
        JsonElement plan = answer.RootElement;
        IReadOnlyDictionary<string, string> totals = await room.TotalsAsync();
        Assert.StartsWith(Chance(plan.GetProperty("chanceAll")) + " chance that all pass", await room.SentenceAsync(), StringComparison.Ordinal);
        Assert.Equal(Minutes(plan.GetProperty("work").GetDouble()), totals["Work"]);
        Assert.Equal(Minutes(plan.GetProperty("toCome").GetDouble()), totals["Expected rework"]);
        Assert.Equal(Minutes(plan.GetProperty("minutes").GetDouble()), totals["Total"]);
        Assert.Equal(List(plan.GetProperty("opened").EnumerateArray().Select(g => g.GetString()!)), totals["Lift"]);
        Assert.Equal(
            List(plan.GetProperty("bought").EnumerateArray().Select(b => $"{b.GetProperty("count").GetInt32()}\u00a0×\u00a0{Shim(b.GetProperty("thickness"))}")),
            totals["Buy"]);
        IReadOnlyList<PlanLine> lines = await room.LinesAsync();
        // What is left alone comes last, behind one fold.
        JsonElement[] rows = [.. plan.GetProperty("valves").EnumerateArray().OrderBy(r => r.GetProperty("action").GetString() == "keep")];
        Assert.Equal(rows.Select(r => r.GetProperty("valve").GetString()), lines.Select(l => l.Valve));
        Assert.All(rows.Zip(lines), both => AssertLine(both.First, both.Second));
    }

    /// <summary>What a page says of a valve is what "shimwright estimate" answers.</summary>
    public static async Task AssertEstimateAsync(string file, string valve, string shown)
    {
        using var answer = JsonDocument.Parse(await ProgramCommand.RunAsync("estimate", file, "--json"));
        JsonElement row = answer.RootElement.GetProperty("valves").EnumerateArray().Single(v => v.GetProperty("valve").GetString() == valve);
        Assert.Contains($"{Clearance(row.GetProperty("mean"))} mm, between {Clearance(row.GetProperty("low"))} and {Clearance(row.GetProperty("high"))}", shown, StringComparison.Ordinal);
    }

    /// <summary>The verdict that a page shows is what "shimwright verdict" answers.</summary>
    public static async Task AssertVerdictAsync(string file, IReadOnlyList<JudgedLine> lines)
    {
        using JsonDocument answer = await VerdictAsync(file);
        JsonElement[] rows = [.. answer.RootElement.GetProperty("valves").EnumerateArray()];
        Assert.Equal(rows.Select(r => r.GetProperty("valve").GetString()), lines.Select(l => l.Valve));
        Assert.All(rows.Zip(lines), both =>
        {
            JsonElement estimate = both.First.GetProperty("estimate");
            Assert.StartsWith(Spread(estimate), both.Second.Gap, StringComparison.Ordinal);
            Assert.Equal(Chance(estimate.GetProperty("inBand")), both.Second.InBand);
            Assert.StartsWith(estimate.GetProperty("inBand").GetDouble() >= 0.5 ? "passes" : "fails", both.Second.Verdict, StringComparison.Ordinal);
        });
    }

    /// <summary>What the record says of each valve now is what "shimwright verdict" answers.</summary>
    public static async Task AssertNowAsync(string file, IReadOnlyList<RecordLine> lines)
    {
        using JsonDocument answer = await VerdictAsync(file);
        Assert.All(answer.RootElement.GetProperty("valves").EnumerateArray().Zip(lines), both =>
        {
            Assert.Equal(both.First.GetProperty("valve").GetString(), both.Second.Valve);
            Assert.StartsWith(Clearance(both.First.GetProperty("estimate").GetProperty("mean")) + " ±", both.Second.Now, StringComparison.Ordinal);
        });
    }

    private static async Task<JsonDocument> VerdictAsync(string file) => JsonDocument.Parse(await ProgramCommand.RunAsync("verdict", file, "--json"));

    private static void AssertLine(JsonElement row, PlanLine line)
    {
        Assert.StartsWith(Spread(row.GetProperty("estimate")), line.Cells["Gap now"], StringComparison.Ordinal);
        Assert.EndsWith(row.GetProperty("working").GetString(), line.Working, StringComparison.Ordinal);
        Assert.Equal(Chance(row.GetProperty("chance")), line.Cells["In band"]);
        Assert.Equal(row.GetProperty("after") is { ValueKind: JsonValueKind.Object } after ? Spread(after) : "", line.Cells.GetValueOrDefault("Gap then", ""));
        string action = row.GetProperty("action").GetString()!;
        if (action == "fit")
        {
            Assert.Equal("change", line.Cells["Do"]);
            Assert.Equal($"{Shim(row.GetProperty("from").GetProperty("thickness"))} → {Shim(row.GetProperty("to").GetProperty("thickness"))}", line.Cells["Shim"]);
        }
        else
        {
            Assert.StartsWith(action == "turn" ? "turn " : "leave alone", line.Cells["Do"], StringComparison.Ordinal);
        }
    }

    private static string Spread(JsonElement e) => $"{Clearance(e.GetProperty("mean"))} ({Clearance(e.GetProperty("low"))} to {Clearance(e.GetProperty("high"))})";

    private static string Clearance(JsonElement mm) => mm.GetDouble().ToString("0.000;-0.000;0.000", CultureInfo.InvariantCulture);

    private static string Shim(JsonElement mm) => mm.GetDouble().ToString("0.00#", CultureInfo.InvariantCulture);

    /// <summary>A chance in per cent with one digit; what rounds to 0 or 100 is said in words.</summary>
    private static string Chance(JsonElement chance) => chance.GetDouble() switch
    {
        >= 0.9995 => "over 99.9 %",
        < 0.0005 => "under 0.1 %",
        var c => (c * 100).ToString("0.0", CultureInfo.InvariantCulture) + " %",
    };

    private static string Minutes(double minutes) => minutes < 90
        ? FormattableString.Invariant($"{minutes:0} min")
        : FormattableString.Invariant($"{(int)Math.Round(minutes) / 60} h {(int)Math.Round(minutes) % 60:00} min");

    private static string List(IEnumerable<string> items) => string.Join(", ", items) is { Length: > 0 } list ? list : "nothing";
}
