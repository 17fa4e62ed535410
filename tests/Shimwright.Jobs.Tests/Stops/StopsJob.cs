using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;

namespace Shimwright.Jobs.Tests.Stops;

/// <summary>Jobs with a layout and without readings, for tests to spoil.</summary>
internal static class StopsJob
{
    /// <summary>An in-line four with an intake and an exhaust valve a cylinder.</summary>
    public static JobDraft Four() => new(
        $$"""
        {
          "format": "shimwright-job/1",
          "engine": {
            "name": "Bench four", "valvetrain": "shim-under-bucket",
            "valves": [{{string.Join(", ", Enumerable.Range(1, 4).Select(c => $"{Valve(c, "intake")}, {Valve(c, "exhaust")}"))}}],
            "layout": {
              "firingOrder": [1, 3, 4, 2], "intake": {"opensBtdc": 10, "closesAbdc": 50}, "exhaust": {"opensBbdc": 50, "closesAtdc": 10}
            }
          },
          "check": {"clock": 0, "readings": []}
        }
        """);

    public static StopsResult Answer(JobDraft draft) => StopsResult.Of(Reading.Takes(draft, JobPurpose.Stops));

    /// <summary>Stops in words that can be compared: angle, turn, valves with their slack.</summary>
    public static string[] Stops(JobDraft draft) =>
    [
        .. Answer(draft).Stops.Select(s => FormattableString.Invariant(
            $"{s.CrankDeg} after {s.TurnFromPrevious}: {string.Join(", ", s.Valves.Select(v => FormattableString.Invariant($"{v.Valve} {v.SlackDeg}")))}")),
    ];

    public static void Refuses(JobDraft draft, string path, string words) => Reading.Refuses(draft, path, words, JobPurpose.Stops);

    private static string Valve(int cylinder, string side) =>
        $$"""{"id": "{{char.ToUpperInvariant(side[0])}}{{cylinder}}", "cylinder": {{cylinder}}, "side": "{{side}}", "access": "cover", "band": [0.12, 0.18]}""";
}
