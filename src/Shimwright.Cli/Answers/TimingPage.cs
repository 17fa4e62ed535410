using Shimwright.Jobs.Results;
using static System.FormattableString;

namespace Shimwright.Cli.Answers;

/// <summary>What timing prints.</summary>
internal static class TimingPage
{
    public static void Write(Page page, TimingResult answer)
    {
        page.Heading("Cam timing");
        List<string> lines =
        [
            Invariant($"One tooth is {answer.Tooth.CamDegrees:0.00} camshaft degrees, {answer.Tooth.CrankDegrees:0.00} crank degrees."),
        ];
        if (answer.Mark is { } mark)
        {
            lines.Add(Invariant($"Mark: {mark.CamDegrees:0.00} camshaft degrees off. {Sentence(mark.Verdict)}"));
        }

        if (answer.Pins is { } pins)
        {
            lines.Add(Invariant($"Pins: {pins.Found} counted, {pins.Right} right. {Sentence(pins.Verdict)}"));
        }

        if (answer.Lobes is { } lobes)
        {
            lines.AddRange(Lobes(lobes));
        }

        foreach (EventsRow row in answer.AfterClearanceChange ?? [])
        {
            lines.Add(Invariant($"After the change of clearance the {row.Side} opens at {row.Opens:0.#} and closes at {row.Closes:0.#}: open for {row.Duration:0.#}."));
        }

        page.Bullets(lines);
        page.Heading("Cautions");
        page.Bullets(answer.Cautions);
    }

    private static IEnumerable<string> Lobes(LobesRow lobes)
    {
        if (lobes is { IntakeDuration: { } intake, IntakeCentreAtdc: { } after })
        {
            yield return Invariant($"Intake: open for {intake:0.#} crank degrees, lobe centre {after:0.#} after top dead centre.");
        }

        if (lobes is { ExhaustDuration: { } exhaust, ExhaustCentreBtdc: { } before })
        {
            yield return Invariant($"Exhaust: open for {exhaust:0.#} crank degrees, lobe centre {before:0.#} before top dead centre.");
        }

        if (lobes is { Overlap: { } overlap, SeparationCamDegrees: { } separation })
        {
            string both = overlap < 0 ? Invariant($"none, both are closed for {-overlap:0.#}") : Invariant($"{overlap:0.#}");
            yield return Invariant($"Overlap: {both} crank degrees; separation of the lobes {separation:0.#} camshaft degrees.");
        }
    }

    private static string Sentence(string words) => $"{char.ToUpperInvariant(words[0])}{words[1..]}.";
}
