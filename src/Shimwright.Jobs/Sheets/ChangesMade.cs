using Shimwright.Jobs.Facts;

namespace Shimwright.Jobs.Sheets;

/// <summary>What was done at each valve since its check, put together from every change that counts.</summary>
internal sealed class ChangesMade
{
    private readonly Dictionary<string, Made> _made = new(StringComparer.Ordinal);

    /// <summary>The valves at which something was done.</summary>
    public IReadOnlyCollection<string> Valves => _made.Keys;

    /// <summary>Whether something else is at the valve after a change; what only corrects what was written before changes nothing there.</summary>
    public bool IsAnother(ChangeFact change, ThicknessFound? found) =>
        !_made.TryGetValue(change.Valve, out Made? before) || SinceTheCheck(before.Whole, change, found) != change;

    /// <summary>Adds the next change.</summary>
    public void Add(int number, ChangeFact change, ThicknessFound? found)
    {
        if (!_made.TryGetValue(change.Valve, out Made? before))
        {
            _made.Add(change.Valve, new(number, number, change, change));
        }
        else if (change != before.Written)
        {
            int since = IsAnother(change, found) ? number : before.Since;
            _made[change.Valve] = new(number, since, change, SinceTheCheck(before.Whole, change, found));
        }
    }

    /// <summary>What was done at a valve, or null.</summary>
    public ChangeFact? At(string valve) => _made.GetValueOrDefault(valve)?.Whole;

    /// <summary>The number of the entry that says what is at the valve now; 0 where nothing was done.</summary>
    public int NumberOf(string valve) => _made.GetValueOrDefault(valve)?.Number ?? 0;

    /// <summary>The number of the entry since which what is at the valve is there; 0 where nothing was done.</summary>
    public int SinceOf(string valve) => _made.GetValueOrDefault(valve)?.Since ?? 0;

    /// <summary>
    /// A shim that comes out again is a second change: together they lead from the first shim to the last. Anything else
    /// corrects what was written before.
    /// </summary>
    private static ChangeFact SinceTheCheck(ChangeFact before, ChangeFact change, ThicknessFound? found) =>
        before is ShimFitted first && change is ShimFitted second && second.From == first.To
            && (found is null || second.From != new Results.ThicknessRow(found.Thickness, found.By))
            ? second with { From = first.From }
            : change;

    private sealed record Made(int Number, int Since, ChangeFact Written, ChangeFact Whole);
}
