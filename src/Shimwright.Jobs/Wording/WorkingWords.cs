using System.Globalization;
using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;

namespace Shimwright.Jobs.Wording;

/// <summary>The arithmetic behind a valve's line, in one line with its numbers.</summary>
public static class WorkingWords
{
    /// <summary>Writes the working of a valve.</summary>
    /// <param name="valve">The valve's line.</param>
    /// <param name="length">How a length is written; millimetres where it is left out.</param>
    /// <param name="blades">The person's blades, for a screw that is set with one; none where they are left out.</param>
    /// <param name="hasHorizon">Whether the chances are those of staying in band to the end of a horizon.</param>
    /// <returns>One line.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valve"/> is null.</exception>
    public static string Of(PlannedValve valve, Func<double, string>? length = null, IReadOnlyList<double>? blades = null, bool hasHorizon = false)
    {
        ArgumentNullException.ThrowIfNull(valve);
        length ??= LengthWords.Millimetres.Clearance;
        string mean = length(valve.Estimate.Mean);
        string band = $"{length(valve.Valve.Band.Low)}-{length(valve.Valve.Band.High)}";
        if (valve.IsStranded)
        {
            return $"{mean} is in {band} with a chance of {Share(valve.Estimate.InBand)} only, and nothing at hand does better";
        }

        return valve.Action switch
        {
            ValveAction.Keep when hasHorizon =>
                $"{mean} is in {band} with a chance of {Share(valve.Estimate.InBand)}: left alone, {Share(valve.Chance!.Value)} to the end of the horizon{(valve.IsSeatedAnew ? ", seated anew" : "")}",
            ValveAction.Keep when valve.IsSeatedAnew =>
                $"{mean} is in {band} with a chance of {Share(valve.Estimate.InBand)}: left alone, {Share(valve.Chance!.Value)} once it is seated anew",
            ValveAction.Keep => $"{mean} is in {band} with a chance of {Share(valve.Estimate.InBand)}: left alone",
            ValveAction.Turn => Turned(valve, length) + (SetWith(valve.Valve.Band, blades ?? [], length) is { Length: > 0 } with ? $"; {with}" : ""),
            _ => Fitted(valve, length),
        };
    }

    /// <summary>A screw setting for the hand: flats of the screw's or nut's hexagon, and which way.</summary>
    /// <param name="turns">Turns, positive for more clearance.</param>
    /// <returns>Such as "0.4 flats wider", a flat being a sixth of a turn and wider meaning more clearance.</returns>
    public static string Flats(double turns) => string.Create(
        CultureInfo.InvariantCulture, $"{ScrewSetting.Flats(Math.Abs(turns)):0.0} flats {(turns >= 0 ? "wider" : "tighter")}");

    /// <summary>The blade to set a gap with.</summary>
    /// <param name="band">The band of the valve.</param>
    /// <param name="blades">The person's blades, mm.</param>
    /// <param name="length">How a length is written.</param>
    /// <returns>Half a sentence; nothing where there is no blade.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="band"/>, <paramref name="blades"/> or <paramref name="length"/> is null.</exception>
    public static string SetWith(ClearanceBand band, IReadOnlyList<double> blades, Func<double, string> length)
    {
        ArgumentNullException.ThrowIfNull(length);
        return SettingBlades.For(band, blades) switch
        {
            null => "",
            { NoGo: { } noGo, Blade: var go } => $"set it so that the {length(go)} blade goes in and the {length(noGo)} blade does not",
            { Blade: var blade } => $"set it with the {length(blade)} blade, to a light drag",
        };
    }

    private static string Fitted(PlannedValve valve, Func<double, string> length)
    {
        double ratio = valve.Train.Ratio;
        double middle = valve.Valve.Band.Middle;
        string over = ratio == 1 ? "" : $" / {Number(ratio)}";
        string times = ratio == 1 ? "" : $"{Number(ratio)} x ";
        return $"wanted {length(valve.From!.Millimetres)} + ({length(valve.Estimate.Mean)} - {length(middle)}){over} = {length(valve.Wanted!.Value)}; "
            + $"{length(valve.To!.Millimetres)} gives {length(valve.Estimate.Mean)} + {times}({length(valve.From.Millimetres)} - {length(valve.To.Millimetres)}) = "
            + $"{length(valve.After!.Mean)}, standard deviation {length(valve.After.StandardDeviation)}";
    }

    private static string Turned(PlannedValve valve, Func<double, string> length)
    {
        double ratio = valve.Train.Ratio;
        string travel = ratio == 1
            ? length(ScrewSetting.ClearancePerTurn(valve.Train))
            : $"({Number(ratio)} x {length(valve.Train.Pitch!.Value)})";
        return $"({length(valve.Valve.Band.Middle)} - {length(valve.Estimate.Mean)}) / {travel} a turn = "
            + $"{Signed(valve.Turns!.Value)} turn, {Flats(valve.Turns.Value)} (a flat is a sixth of a turn); set by feel to {length(valve.After!.Mean)}, "
            + $"standard deviation {length(valve.After.StandardDeviation)}";
    }

    private static string Share(double chance) => chance.ToString(chance > 0.995 ? "0.000" : "0.00", CultureInfo.InvariantCulture);

    private static string Number(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);

    private static string Signed(double number) => number.ToString("+0.000;-0.000;0.000", CultureInfo.InvariantCulture);
}
