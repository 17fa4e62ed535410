using System.Text.Json;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.InStep;

/// <summary>Facts on their way between benches that count the entries of a job each for itself.</summary>
internal static class DeedFacts
{
    /// <summary>The facts as they are sent: an entry that is taken back is named by its place among those of its action.</summary>
    public static IReadOnlyList<JsonElement> Sent(IReadOnlyList<JobFact> facts, JobSheet? sheet) => [.. facts.Select(f => JsonElement.Parse(FactJson.Write(ToPlace(f, sheet))))];

    /// <summary>The facts as they are on a bench.</summary>
    /// <exception cref="JsonException">One of them is no fact.</exception>
    public static IReadOnlyList<JobFact> Read(IReadOnlyList<JsonElement> facts, JobSheet? sheet) => [.. facts.Select(f => ToNumber(FactJson.Read(f.GetRawText()), sheet))];

    private static JobFact ToPlace(JobFact fact, JobSheet? sheet) =>
        fact is Undone { Entry: { } number } undone ? undone with { Entry = 1 + OfAction(sheet, undone.Action).IndexOf(number) } : fact;

    private static JobFact ToNumber(JobFact fact, JobSheet? sheet) => fact is not Undone { Entry: { } place } undone ? fact
        : OfAction(sheet, undone.Action) is var numbers && place >= 1 && place <= numbers.Count ? undone with { Entry = numbers[place - 1] }
        : undone with { Entry = 0 };

    private static List<int> OfAction(JobSheet? sheet, Guid action) => [.. (sheet?.Entries ?? []).Where(e => e.Action == action).Select(e => e.Number)];
}
