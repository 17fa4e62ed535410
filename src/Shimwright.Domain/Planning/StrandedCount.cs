namespace Shimwright.Domain.Planning;

/// <summary>How many valves have to be stranded whatever is opened.</summary>
/// <param name="Least">How many.</param>
/// <param name="Choice">One way to strand no more: for each valve a change by its place, or -1.</param>
internal sealed record StrandedCount(int Least, int[] Choice)
{
    /// <summary>Counts them.</summary>
    public static StrandedCount Of(ValveMoves[] moves, int columns)
    {
        if (!Array.Exists(moves, m => m.Kept.IsStranded))
        {
            return new(0, [.. moves.Select(_ => -1)]);
        }

        List<int> starts = [0];
        List<int> arcs = [];
        List<int> costs = [];
        foreach ((int v, ValveMoves move) in moves.Index())
        {
            arcs.Add(v);
            costs.Add(move.Kept.IsStranded ? 1 : 0);
            arcs.AddRange(move.Columns);
            costs.AddRange(move.Columns.Select(_ => 0));
            starts.Add(arcs.Count);
        }

        int[] taken = new int[moves.Length];
        new AssignmentSolver<int>(columns).Solve([.. starts], [.. arcs], [.. costs], taken);
        return new(taken.Sum(a => costs[a]), [.. taken.Select((arc, v) => arc - starts[v] - 1)]);
    }
}
