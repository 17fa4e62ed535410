using System.Globalization;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Tests.Samples;
using Shimwright.Testing;

namespace Shimwright.Jobs.Tests.Stops;

public class AnyLayoutTests(ITestOutputHelper output)
{
    private readonly Random _random = new(20250710);

    /// <summary>Layouts at the ends of what is allowed, in ninths and sevenths of a degree too: problems or an answer, never a throw.</summary>
    [Fact]
    [Long]
    public void Read_TwoThousandLayouts_GiveProblemsOrEveryValveOnce()
    {
        int answered = 0;
        for (int run = 0; run < 2000; run++)
        {
            JobDraft draft = Draft();
            ParsedJob reading = JobFile.Read(draft.Bytes, JobPurpose.Stops);
            Assert.All(reading.Problems, Reading.AssertOneLine);
            if (reading.Job is { } job)
            {
                StopsResult answer = StopsResult.Of(job);
                Assert.Equal(8, answer.Stops.SelectMany(s => s.Valves).Select(v => v.Valve).Distinct().Count());
                Assert.Equal(8, answer.Stops.Sum(s => s.Valves.Count));
                Assert.All(answer.Stops, s => Assert.InRange(s.CrankDeg, 0, 720 - 1e-6));
                Assert.All(answer.Stops.SelectMany(s => s.Valves), v => Assert.InRange(v.SlackDeg, 0, 360));
                answered++;
            }
        }

        output.WriteLine($"{answered} answered");
        Assert.InRange(answered, 500, 1900);
    }

    private JobDraft Draft()
    {
        JobDraft draft = StopsJob.Four()
            .Set("$.engine.layout.rampDeg", Text(Pick(0, 20, 90, 180, Degrees(0, 180))))
            .Set("$.engine.layout.stopsAt", Pick(0, 1) == 0 ? "\"marks\"" : "\"anywhere\"")
            .Set("$.engine.layout.marks", $"[{string.Join(", ", Enumerable.Range(0, _random.Next(4)).Select(_ => Text(Degrees(-720, 720))))}]")
            .Set("$.engine.layout.intake", $"{{\"opensBtdc\": {Event()}, \"closesAbdc\": {Event()}}}")
            .Set("$.engine.layout.exhaust", $"{{\"opensBbdc\": {Event()}, \"closesAtdc\": {Event()}}}");
        if (_random.Next(2) == 0)
        {
            double first = Degrees(-360, 0);
            draft.Set("$.engine.layout.firingAngles", $"[{string.Join(", ", Enumerable.Range(0, 4).Select(k => Text(first + Degrees(180 * k, 179 * (k + 1)))))}]");
        }

        for (int v = 0; v < 8; v++)
        {
            if (_random.Next(6) == 0)
            {
                draft.Set($"$.engine.valves[{v}].alsoOffHeel", $"[{{\"from\": {Text(Degrees(-720, 720))}, \"length\": {Text(Pick(1, 90, 500, Degrees(1, 300)))}}}]");
            }
        }

        return draft;
    }

    private string Event() => Text(Pick(-30, 10, 50, 80, 180, Degrees(-60, 180)));

    private double Pick(params double[] values) => values[_random.Next(values.Length)];

    /// <summary>Whole, in sevenths or in ninths.</summary>
    private double Degrees(int low, int high) => _random.Next(low, high) + (_random.Next(3) switch { 0 => 0, 1 => _random.Next(7) / 7.0, _ => _random.Next(9) / 9.0 });

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
