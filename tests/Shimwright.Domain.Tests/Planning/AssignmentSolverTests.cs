using System.Numerics;
using Shimwright.Domain.Planning;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

[Proof(Formulas.Assignment, Evidence.Computed, "The best permutation of small matrices.")]
public class AssignmentSolverTests
{
    private const int Matrices = 400;
    private const int MostRows = 6;
    private const int Columns = 9;

    [Fact]
    public void Solve_RandomSparseMatricesOfLongs_CostsWhatTheBestPermutationCosts() =>
        AgreesWithEveryPermutation(1, chance => chance.Whole(-20, 20), long.MaxValue);

    [Fact]
    public void Solve_RandomSparseMatricesOfInt128_CostsWhatTheBestPermutationCosts() =>

        // Costs as wide as the planner packs them: beyond what a long or a double can tell apart.
        AgreesWithEveryPermutation(
            2, chance => ((Int128)chance.Whole(0, 3) << 90) + ((Int128)chance.Whole(0, 1000) << 40) + chance.Whole(0, 3), Int128.MaxValue);

    [Fact]
    public void Solve_OneSolverForMatrixAfterMatrix_RemembersNothing()
    {
        var solver = new AssignmentSolver<long>(2);
        int[] arcs = new int[2];
        Assert.True(solver.Solve([0, 2, 3], [0, 1, 0], [1, 5, 2], arcs));
        Assert.Equal([1, 2], arcs);
        Assert.False(solver.Solve([0, 1, 2], [0, 0], [1, 2], arcs));
        Assert.True(solver.Solve([0, 2, 3], [0, 1, 1], [1, 5, 2], arcs));
        Assert.Equal([0, 2], arcs);
    }

    [Theory]
    [InlineData(new[] { 0, 1, 1 }, new[] { 0 })]
    [InlineData(new[] { 0, 1, 2 }, new[] { 1, 1 })]
    [InlineData(new[] { 0, 2, 4, 6 }, new[] { 0, 1, 0, 1, 0, 1 })]
    public void Solve_MoreRowsThanColumnsForThem_SaysNo(int[] starts, int[] columns) =>
        Assert.False(new AssignmentSolver<long>(3).Solve(starts, columns, new long[columns.Length], new int[starts.Length - 1]));

    [Fact]
    public void Solve_NoRows_IsSolved() => Assert.True(new AssignmentSolver<long>(3).Solve([0], [], [], []));

    [Fact]
    public void Solve_TwoArcsToOneColumn_TakesTheCheaper()
    {
        int[] arcs = new int[1];
        Assert.True(new AssignmentSolver<long>(1).Solve([0, 3], [0, 0, 0], [5, 2, 4], arcs));
        Assert.Equal([1], arcs);
    }

    private static void AgreesWithEveryPermutation<T>(int seed, Func<SeededChance, T> draw, T most)
        where T : struct, INumber<T>
    {
        var chance = new SeededChance(seed);
        var solver = new AssignmentSolver<T>(Columns);
        int without = 0;
        for (int i = 0; i < Matrices; i++)
        {
            (int[] starts, int[] columns, T[] costs) = Draw(chance, draw);
            T best = Least(starts, columns, costs, 0, 0, most);
            int[] arcs = new int[starts.Length - 1];
            Assert.Equal(best < most, solver.Solve(starts, columns, costs, arcs));
            if (best == most)
            {
                without++;
                continue;
            }

            Assert.All(arcs.Index(), a => Assert.InRange(a.Item, starts[a.Index], starts[a.Index + 1] - 1));
            Assert.Equal(arcs.Length, arcs.Select(a => columns[a]).Distinct().Count());
            Assert.Equal(best, arcs.Aggregate(T.Zero, (sum, a) => sum + costs[a]));
        }

        Assert.InRange(without, Matrices / 20, Matrices / 2);
    }

    private static (int[] Starts, int[] Columns, T[] Costs) Draw<T>(SeededChance chance, Func<SeededChance, T> draw)
    {
        int rows = chance.Whole(1, MostRows);
        double density = chance.Pick(0.15, 0.4, 0.9);
        List<int> starts = [0];
        List<int> columns = [];
        for (int row = 0; row < rows; row++)
        {
            columns.AddRange(Enumerable.Range(0, Columns).Where(_ => chance.Happens(density)));
            starts.Add(columns.Count);
        }

        return ([.. starts], [.. columns], [.. columns.Select(_ => draw(chance))]);
    }

    /// <summary>The least total over all ways to give the rows from this one on a column of their own.</summary>
    private static T Least<T>(int[] starts, int[] columns, T[] costs, int row, int taken, T most)
        where T : struct, INumber<T>
    {
        if (row == starts.Length - 1)
        {
            return T.Zero;
        }

        T least = most;
        for (int arc = starts[row]; arc < starts[row + 1]; arc++)
        {
            int column = 1 << columns[arc];
            if ((taken & column) == 0 && Least(starts, columns, costs, row + 1, taken | column, most) is var rest && rest < most)
            {
                least = T.Min(least, costs[arc] + rest);
            }
        }

        return least;
    }
}
