using System.Numerics;
using Shimwright.Domain.Planning;

namespace Shimwright.Reference.Planning;

/// <summary>Hands a cost matrix to the solver in its sparse form; null is a pair that may not be.</summary>
internal static class AssignmentInstance
{
    /// <summary>The cost that each row pays, or null where some row must go without a column.</summary>
    public static T[]? Solve<T>(T?[][] matrix)
        where T : struct, INumber<T>
    {
        List<int> starts = [0];
        List<int> columns = [];
        List<T> costs = [];
        foreach (T?[] row in matrix)
        {
            foreach ((int column, T? cost) in row.Index().Where(c => c.Item.HasValue))
            {
                columns.Add(column);
                costs.Add(cost!.Value);
            }

            starts.Add(columns.Count);
        }

        int[] arcs = new int[matrix.Length];
        int width = matrix.Max(r => r.Length);
        if (!new AssignmentSolver<T>(width).Solve([.. starts], [.. columns], [.. costs], arcs))
        {
            return null;
        }

        int[] taken = [.. arcs.Select(a => columns[a])];
        if (taken.Distinct().Count() != taken.Length || arcs.Index().Any(a => a.Item < starts[a.Index] || a.Item >= starts[a.Index + 1]))
        {
            throw new InvalidOperationException("A column was given twice, or a row was given another row's pair.");
        }

        return [.. arcs.Select(a => costs[a])];
    }

    public static T?[][] Of<T>(double[][] matrix)
        where T : struct, INumber<T> =>
        [.. matrix.Select(r => r.Select(c => double.IsFinite(c) ? T.CreateChecked(c) : (T?)null).ToArray())];

    public static double[][] Transpose(double[][] matrix) =>
        [.. Enumerable.Range(0, matrix[0].Length).Select(c => matrix.Select(r => r[c]).ToArray())];
}
