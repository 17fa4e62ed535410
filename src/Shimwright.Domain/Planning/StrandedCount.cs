namespace Shimwright.Domain.Planning;

/// <summary>How many valves have to be stranded whatever is opened.</summary>
internal static class StrandedCount
{
    public static int Least(ValveMoves[] moves, int columns)
    {
        if (!Array.Exists(moves, m => m.Kept.IsStranded))
        {
            return 0;
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
        return taken.Sum(a => costs[a]);
    }
}
