using Shimwright.Domain.CamTiming;
using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using static System.FormattableString;

namespace Shimwright.Jobs.Results;

/// <summary>What was asked about the timing of a camshaft; what was not measured is null.</summary>
/// <param name="Sprocket">The camshaft's sprocket.</param>
/// <param name="Mark">A mark off its line and its distance from the camshaft's centre, mm.</param>
/// <param name="Pins">Chain pins counted.</param>
/// <param name="Intake">Intake events.</param>
/// <param name="Exhaust">Exhaust events.</param>
/// <param name="Clearance">Clearance gained, mm, and lift of the ramp, mm a crank degree.</param>
public sealed record TimingQuestion(
    Sprocket Sprocket, (double Offset, double Radius)? Mark, PinCount? Pins,
    CamEvents? Intake, CamEvents? Exhaust, (double Change, double RampSpeed)? Clearance);

/// <summary>What one tooth is.</summary>
/// <param name="CamDegrees">Degrees of the camshaft.</param>
/// <param name="CrankDegrees">Degrees of the crank.</param>
public sealed record ToothRow(double CamDegrees, double CrankDegrees);

/// <summary>A mark off its line.</summary>
/// <param name="CamDegrees">How far the camshaft is out, its degrees.</param>
/// <param name="Teeth">The nearest whole number of teeth.</param>
/// <param name="LeftOverCamDegrees">What is left over, degrees of the camshaft.</param>
/// <param name="Verdict">What that means.</param>
public sealed record MarkRow(double CamDegrees, int Teeth, double LeftOverCamDegrees, string Verdict);

/// <summary>Chain pins counted.</summary>
/// <param name="Found">Pins that were counted.</param>
/// <param name="Right">Pins that there should be.</param>
/// <param name="TeethAdvanced">By how many teeth the second camshaft is advanced.</param>
/// <param name="Verdict">What that means.</param>
public sealed record PinsRow(int Found, int Right, int TeethAdvanced, string Verdict);

/// <summary>Durations, centres and overlap, crank degrees; the separation in camshaft degrees. Null where a side is not known.</summary>
/// <param name="IntakeDuration">How long the intake valve is open.</param>
/// <param name="ExhaustDuration">How long the exhaust valve is open.</param>
/// <param name="IntakeCentreAtdc">Centre of the intake lobe, after top dead centre.</param>
/// <param name="ExhaustCentreBtdc">Centre of the exhaust lobe, before top dead centre.</param>
/// <param name="SeparationCamDegrees">Distance of the two centres.</param>
/// <param name="Overlap">How long both are open.</param>
public sealed record LobesRow(
    double? IntakeDuration, double? ExhaustDuration, double? IntakeCentreAtdc, double? ExhaustCentreBtdc,
    double? SeparationCamDegrees, double? Overlap);

/// <summary>Events after a change of clearance, crank degrees.</summary>
/// <param name="Side">intake or exhaust.</param>
/// <param name="Opens">When it opens.</param>
/// <param name="Closes">When it closes.</param>
/// <param name="Duration">How long it is open.</param>
public sealed record EventsRow([property: Words(typeof(ValveSide))] string Side, double Opens, double Closes, double Duration);

/// <summary>The answer of the command timing.</summary>
/// <param name="Format">shimwright-timing/1.</param>
/// <param name="Tooth">What one tooth is.</param>
/// <param name="Mark">The mark off its line, or null.</param>
/// <param name="Pins">The chain pins, or null.</param>
/// <param name="Lobes">Durations, centres and overlap, or null.</param>
/// <param name="AfterClearanceChange">The events after the change of clearance, or null.</param>
/// <param name="Cautions">What to bear in mind.</param>
public sealed record TimingResult(
    [property: Words(TimingResult.FormatName)] string Format, ToothRow Tooth, MarkRow? Mark, PinsRow? Pins, LobesRow? Lobes,
    IReadOnlyList<EventsRow>? AfterClearanceChange, IReadOnlyList<string> Cautions)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-timing/1";

    /// <summary>What wrong timing does, and what follows from that.</summary>
    public const string Danger =
        "Turn the engine by hand only until the marks are right. Stop if it turns hard. Wrong timing bends valves at the first turn of the starter. "
        + "The maker's manual shows the marks.";

    /// <summary>What may be left over, in teeth, before a mark speaks for no whole number of them; common practice, no source.</summary>
    private const double Doubtful = 0.25;

    /// <summary>Answers a question.</summary>
    /// <param name="question">What was measured.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="question"/> is null.</exception>
    public static TimingResult Of(TimingQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        Sprocket sprocket = question.Sprocket;
        return new(
            FormatName,
            new ToothRow(Rounding.Degrees(sprocket.CamDegreesPerTooth), Rounding.Degrees(sprocket.CrankDegreesPerTooth)),
            question.Mark is { } mark ? MarkOf(sprocket.ReadMark(mark.Offset, mark.Radius), sprocket) : null,
            question.Pins is { } pins
                ? new PinsRow(pins.Found, pins.Right, pins.TeethAdvanced, Verdict(pins.TeethAdvanced, "the second camshaft is", " against the first"))
                : null,
            question is { Intake: null, Exhaust: null } ? null : LobesOf(new LobeTiming(question.Intake, question.Exhaust)),
            EventsAfter(question),
            [Danger]);
    }

    private static MarkRow MarkOf(MarkReading reading, Sprocket sprocket)
    {
        double share = Math.Abs(reading.LeftOver) / sprocket.CamDegreesPerTooth;
        string left = Invariant($"{Math.Abs(reading.LeftOver):0.0} cam degrees left over ({share:0.00} of a tooth)");
        string verdict = share > Doubtful
            ? $"doubtful: nearest is {Teeth(reading.Teeth)}, with {left}. Measure again, and check the radius and the chain"
            : $"{Verdict(reading.Teeth, "the camshaft is", "")}, {left}";
        return new(Rounding.Degrees(reading.CamDegrees), reading.Teeth, Rounding.Degrees(reading.LeftOver), verdict);
    }

    private static string Verdict(int teeth, string who, string against) =>
        teeth == 0 ? $"right: {who} where it belongs" : $"wrong: {who} {Teeth(teeth)}{against}";

    private static string Teeth(int teeth) => teeth == 0
        ? "no tooth out"
        : Invariant($"{Math.Abs(teeth)} {(Math.Abs(teeth) == 1 ? "tooth" : "teeth")} {(teeth > 0 ? "advanced" : "retarded")}");

    private static LobesRow LobesOf(LobeTiming lobes) => new(
        Rounded(lobes.IntakeDuration), Rounded(lobes.ExhaustDuration), Rounded(lobes.IntakeCentre),
        Rounded(lobes.ExhaustCentre), Rounded(lobes.Separation), Rounded(lobes.Overlap));

    private static double? Rounded(double? degrees) => degrees is { } d ? Rounding.Degrees(d) : null;

    private static List<EventsRow>? EventsAfter(TimingQuestion question)
    {
        if (question.Clearance is not { } clearance)
        {
            return null;
        }

        List<EventsRow> rows = [];
        foreach ((string side, CamEvents? before) in new[] { ("intake", question.Intake), ("exhaust", question.Exhaust) })
        {
            if (before is not null
                && LobeTiming.AfterClearanceChange(before, clearance.Change, clearance.RampSpeed) is { } after)
            {
                rows.Add(new EventsRow(side, Rounding.Degrees(after.Opens), Rounding.Degrees(after.Closes), Rounding.Degrees(after.Duration)));
            }
        }

        return rows;
    }
}
