using System.Globalization;
using Shimwright.Domain.CamTiming;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;

namespace Shimwright.Pages.Timing;

/// <summary>What was measured about a camshaft's timing, as it is typed.</summary>
/// <param name="Teeth">Teeth of the camshaft's sprocket.</param>
/// <param name="Offset">How far a mark sits off its line, mm.</param>
/// <param name="Radius">Distance of that mark from the camshaft's centre, mm.</param>
/// <param name="Pins">Chain pins counted.</param>
/// <param name="Right">Chain pins that the manual gives.</param>
public sealed record TimingForm(string? Teeth, string? Offset, string? Radius, string? Pins, string? Right)
{
    private const double GreatestOffset = 500, LeastRadius = 1, GreatestRadius = 1000, MostPins = 1000;

    /// <summary>Whether anything was typed.</summary>
    public bool IsBlank => new[] { Teeth, Offset, Radius, Pins, Right }.All(string.IsNullOrWhiteSpace);

    /// <summary>What was typed, as a question; null, with problems, where it is none.</summary>
    public TimingQuestion? Read(List<JobProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        double? teeth = Within(TypedNumber.Plain(Teeth, "teeth"), "teeth", Sprocket.FewestTeeth, Sprocket.MostTeeth, true, problems);
        double? offset = Within(LengthStyle.Millimetres.Read(Offset, "mark to its line", needed: false), "mark to its line", -GreatestOffset, GreatestOffset, false, problems);
        double? radius = Within(LengthStyle.Millimetres.Read(Radius, "mark to camshaft centre", needed: false), "mark to camshaft centre", LeastRadius, GreatestRadius, false, problems);
        double? pins = Within(TypedNumber.Plain(Pins, "pins counted", needed: false), "pins counted", 0, MostPins, true, problems);
        double? right = Within(TypedNumber.Plain(Right, "pins in the manual", needed: false), "pins in the manual", 0, MostPins, true, problems);
        Together(Offset, Radius, "mark to its line", "enter A and B together, or neither", problems);
        Together(Pins, Right, "pins", "enter the pins counted and those of the manual together, or neither", problems);
        if (offset is { } o && radius is { } r && Math.Abs(o) > r * Sprocket.FurthestOffset)
        {
            problems.Add(new("mark to its line", $"found {Text(o)} at {Text(r)} from the centre", $"allowed is up to {Text(Sprocket.FurthestOffset)} times as much; are the two swapped?"));
        }

        return problems.Count > 0 ? null : new(
            new Sprocket((int)teeth!.Value),
            offset is { } x && radius is { } at ? (x, at) : null,
            pins is { } n && right is { } m ? new PinCount((int)n, (int)m) : null,
            null, null, null);
    }

    private static double? Within(TypedNumber typed, string path, double least, double greatest, bool whole, List<JobProblem> problems)
    {
        if (typed.Note(problems) is not { } value)
        {
            return null;
        }

        if (value >= least && value <= greatest && (!whole || value == Math.Floor(value)))
        {
            return value;
        }

        problems.Add(new(path, $"found {Text(value)}", $"allowed is a {(whole ? "whole " : "")}number from {Text(least)} to {Text(greatest)}"));
        return null;
    }

    private static void Together(string? one, string? other, string path, string words, List<JobProblem> problems)
    {
        if (string.IsNullOrWhiteSpace(one) != string.IsNullOrWhiteSpace(other))
        {
            problems.Add(new(path, "only one of two was entered", words));
        }
    }

    private static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
