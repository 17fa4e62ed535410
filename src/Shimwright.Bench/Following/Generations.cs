namespace Shimwright.Bench.Following;

/// <summary>
/// Numbers of entries as pages know them that were made before a step: what was added here is numbered anew by the followed bench, and
/// what others have added may stand before it.
/// </summary>
internal sealed class Generations
{
    private readonly Dictionary<Guid, List<(int Last, int Shared)>> _steps = [];

    /// <summary>Notes a step.</summary>
    /// <param name="of">The job; empty for the drawer.</param>
    /// <param name="last">The last number after it: a page that was made since has seen no less.</param>
    /// <param name="shared">The last number before it that is the same after it.</param>
    public void Note(Guid of, int last, int shared)
    {
        if (!_steps.TryGetValue(of, out List<(int, int)>? steps))
        {
            _steps[of] = steps = [];
        }

        steps.Add((last, shared));
    }

    /// <summary>What a page has seen, in numbers of now: no more than what is sure.</summary>
    public int Now(Guid of, int seen) => _steps.TryGetValue(of, out List<(int Last, int Shared)>? steps)
        ? steps.Where(s => seen < s.Last).Select(s => Math.Min(s.Shared, seen)).DefaultIfEmpty(seen).Min()
        : seen;
}
