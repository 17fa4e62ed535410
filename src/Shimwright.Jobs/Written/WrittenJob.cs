using System.Text.Json;

namespace Shimwright.Jobs.Written;

/// <summary>
/// A job as it was written down, in a file or on a sheet: everything but its engine card. Nothing in it is judged yet, and
/// what was left out is null.
/// </summary>
/// <param name="Check">The check to work on.</param>
/// <param name="History">Past checks, oldest first.</param>
/// <param name="Stock">Drawer and shop.</param>
/// <param name="Costs">Minutes, prices and the horizon.</param>
/// <param name="Settings">The bench's own constants.</param>
/// <param name="Recheck">What was done after the check, and what was read then.</param>
/// <param name="Rounds">Earlier rounds of the same work, oldest first: what was found, and what was changed after it.</param>
public sealed record WrittenJob(
    WrittenCheck Check, IReadOnlyList<WrittenCheck>? History = null, WrittenStock? Stock = null, WrittenCosts? Costs = null,
    WrittenSettings? Settings = null, WrittenRecheck? Recheck = null, IReadOnlyList<WrittenCheck>? Rounds = null);

/// <summary>What a job starts with besides its engine card, the clock and the temperature; what is null is as usual.</summary>
/// <param name="Blades">The person's blades, mm.</param>
/// <param name="Loss">What loss is expected where nothing is known of the engine's past.</param>
/// <param name="History">Past checks of the engine, oldest first.</param>
/// <param name="Stock">Drawer and shop.</param>
/// <param name="Costs">Minutes and prices.</param>
/// <param name="Settings">The bench's own constants.</param>
public sealed record WrittenStart(
    IReadOnlyList<double>? Blades = null, WrittenLoss? Loss = null, IReadOnlyList<WrittenCheck>? History = null, WrittenStock? Stock = null,
    WrittenCosts? Costs = null, WrittenSettings? Settings = null)
{
    /// <summary>The same as JSON in one line.</summary>
    /// <returns>JSON.</returns>
    public string ToJson() => JsonSerializer.Serialize(this, WrittenContext.Default.WrittenStart);
}
