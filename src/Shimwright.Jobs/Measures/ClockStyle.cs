using System.Globalization;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;
using Shimwright.Jobs.Settings;

namespace Shimwright.Jobs.Measures;

/// <summary>
/// How an engine's clock is written for people. It counts hours or kilometres, as the card says; kilometres may be shown as
/// miles. A mile is 1.609344 km (international yard and pound agreement, 1959).
/// </summary>
/// <param name="Unit">h, km or mi.</param>
public sealed record ClockStyle(string Unit)
{
    private const double KilometresAMile = 1.609344;
    private const double HoursAWeek = 168;
    private const double MostDistanceAWeek = 20_000;

    /// <summary>Hours.</summary>
    public static ClockStyle Hours { get; } = new("h");

    /// <summary>The unit in which an engine's clock is kept, whatever is shown.</summary>
    /// <param name="card">What the card says of wear, or null.</param>
    /// <returns>h or km.</returns>
    public static string KeptUnit(WearCard? card) => KeptUnit(card is { CountsKilometres: true });

    /// <summary>The same.</summary>
    /// <param name="countsKilometres">Whether it counts kilometres.</param>
    /// <returns>h or km.</returns>
    public static string KeptUnit(bool countsKilometres) => countsKilometres ? "km" : "h";

    /// <summary>How a bench writes the clock of an engine.</summary>
    /// <param name="card">What the card says of wear, or null.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>The style.</returns>
    public static ClockStyle Of(WearCard? card, BenchSettings settings) => Of(card is { CountsKilometres: true }, settings);

    /// <summary>How a bench writes a clock.</summary>
    /// <param name="countsKilometres">Whether it counts kilometres.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <returns>The style.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="settings"/> is null.</exception>
    public static ClockStyle Of(bool countsKilometres, BenchSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return !countsKilometres ? Hours : new(settings.Distance == "mi" ? "mi" : "km");
    }

    /// <summary>The unit in words, for the axis of a picture.</summary>
    public string UnitWords => Unit switch { "km" => "kilometres", "mi" => "miles", _ => "hours" };

    /// <summary>A reading in the unit that is shown.</summary>
    /// <param name="clock">Hours or km.</param>
    /// <returns>Hours, km or miles.</returns>
    public double Shown(double clock) => Unit == "mi" ? clock / KilometresAMile : clock;

    /// <summary>A reading of the clock, its unit with it: tenths of an hour while they matter, whole kilometres and miles.</summary>
    /// <param name="clock">Hours or km.</param>
    /// <returns>Such as "118 h".</returns>
    public string Text(double clock) => $"{Number(clock)} {Unit}";

    /// <summary>A reading of the clock without its unit.</summary>
    /// <param name="clock">Hours or km.</param>
    /// <returns>Such as "118".</returns>
    public string Number(double clock) =>
        Shown(clock).ToString(Unit == "h" && Math.Abs(clock) < 1000 ? "0.#" : "0", CultureInfo.InvariantCulture);

    /// <summary>A reading that a person typed, in this unit.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <returns>Hours or km.</returns>
    public TypedNumber Read(string? text, string path)
    {
        TypedNumber typed = TypedNumber.Clock(text, path, Unit);
        return Unit == "mi" && typed.Value is { } miles ? new(Math.Round(miles * KilometresAMile, 6), null) : typed;
    }

    /// <summary>Usage a week that a person typed, in this unit; blank for not known.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="path">The field, for the problem.</param>
    /// <returns>Hours or km a week, or a problem.</returns>
    public TypedNumber ReadUsage(string? text, string path)
    {
        TypedNumber typed = TypedNumber.Clock(text, path, Unit, needed: false);
        if (typed.Value is not { } shown)
        {
            return typed;
        }

        double week = Unit == "mi" ? shown * KilometresAMile : shown;
        double most = Unit == "h" ? HoursAWeek : MostDistanceAWeek;
        JobProblem? wrong = week > 0 && week <= most ? null
            : week <= 0 ? new(path, $"found {Number(week)} {Unit} per week", "enter more than 0, or leave it blank")
            : new(path, $"found {Number(week)} {Unit} per week", Unit == "h" ? "enter 168 or less, the hours in a week" : $"enter {Text(most)} or less");
        return wrong is null ? new(week, null) : new(null, wrong);
    }
}
