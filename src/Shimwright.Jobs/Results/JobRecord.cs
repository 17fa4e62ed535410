using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Results;

/// <summary>One valve of a record; lengths in mm.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="Cylinder">Its cylinder.</param>
/// <param name="Side">intake or exhaust.</param>
/// <param name="Band">The maker's limits, lower and upper.</param>
/// <param name="Before">What was found, or null where nothing was read.</param>
/// <param name="Change">What was done: null where the valve was left alone.</param>
/// <param name="Turns">Turns of the screw, or null.</param>
/// <param name="Found">The shim that was found, or null.</param>
/// <param name="Fitted">The shim that was fitted, or null.</param>
/// <param name="Expected">What was expected afterwards, or null.</param>
/// <param name="After">What was felt afterwards; for a valve left alone, what was found; null where nobody has felt it as it is now.</param>
/// <param name="ReadAgain">Whether it was felt again.</param>
/// <param name="Passes">Whether it passed its re-check; in records from before there was a floor, whether it was more likely in band than not.</param>
public sealed record RecordRow(
    string Valve, int Cylinder, string Side, IReadOnlyList<double> Band, EstimateRow? Before, string? Change, double? Turns,
    ThicknessRow? Found, ThicknessRow? Fitted, PredictedRow? Expected, EstimateRow? After, bool ReadAgain, bool Passes)
{
    /// <summary>Whether it would pass if what was felt there said more by itself.</summary>
    public bool FeltTooLittle { get; init; }

    /// <summary>Where the fitted shim came from, as the plan said: drawer, engine or buy; null where another one was fitted, and in records from before it was kept.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Source { get; init; }
}

/// <summary>What is left of a closed job for whoever reads it later: the figures as they stood when it was closed.</summary>
/// <param name="Engine">The engine.</param>
/// <param name="CheckClock">The engine's clock at the check.</param>
/// <param name="ClosedClock">The engine's clock when the job was closed.</param>
/// <param name="ClockUnit">h or km.</param>
/// <param name="TemperatureC">Engine temperature at the check, °C.</param>
/// <param name="Suspected">What was suspected to have moved the valves, or null.</param>
/// <param name="Opened">The access groups that the plan opened.</param>
/// <param name="ChancePromised">The chance that all would pass the first time; null without a plan.</param>
/// <param name="MinutesPromised">The minutes that the plan was expected to take; null without a plan.</param>
/// <param name="Bought">What was to be bought.</param>
/// <param name="Pass">Whether every valve passes.</param>
/// <param name="Valves">The valves, in the engine's order.</param>
/// <param name="Steps">The steps that were ticked.</param>
/// <param name="Cautions">What to bear in mind.</param>
/// <param name="Found">What was found.</param>
/// <param name="Notes">Notes for the customer.</param>
/// <param name="By">Who did the work.</param>
public sealed record JobRecord(
    string Engine, double CheckClock, double ClosedClock, string ClockUnit, double TemperatureC, string? Suspected,
    IReadOnlyList<string> Opened, double? ChancePromised, double? MinutesPromised, IReadOnlyList<BoughtRow> Bought, bool Pass,
    IReadOnlyList<RecordRow> Valves, IReadOnlyList<string> Steps, IReadOnlyList<string> Cautions, string Found, string Notes, string By)
{
    /// <summary>The seating error that the job reckoned with, mm; null in records from before it was kept.</summary>
    public double? Seating { get; init; }

    /// <summary>The chance that all valves are in band; null in records from before it was kept.</summary>
    public double? ChanceAll { get; init; }

    /// <summary>Whether every valve passed and none was changed.</summary>
    [JsonIgnore]
    public bool IsNothingToDo => Pass && Valves.All(v => v.Change is null);

    /// <summary>What stands in a kept record in which every valve passed.</summary>
    public const string Passed = "\"pass\":true";

    /// <summary>What stands in a kept record in which a valve was changed.</summary>
    public const string HasChange = "\"change\":\"";

    /// <summary>The record as JSON in one line, the form in which it is kept.</summary>
    /// <returns>JSON.</returns>
    public string ToJson() => ResultJson.Write(this, indented: false);

    /// <summary>Reads a record that was kept.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The record.</returns>
    public static JobRecord Read(string json) => ResultJson.Read<JobRecord>(json);
}
