using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Planning;

/// <summary>Published assignment problems whose optimum is published with them.</summary>
[Proof(Formulas.Assignment, Evidence.Published, "Assignment problems published with their optimum.")]
public class AssignmentSolverTests
{
    private const double None = double.PositiveInfinity;

    /// <summary>
    /// scipy: scipy/optimize/_lsapmodule.c (the first) and scipy/sparse/csgraph/tests/test_matching.py, commit 027960e2
    /// (the others): the matrix, and what each row pays.
    /// </summary>
    public static TheoryData<double[][], double[]> Published { get; } = new()
    {
        { [[4, 1, 3], [2, 0, 5], [3, 2, 2]], [1, 2, 2] },
        { [[400, 150, 400], [400, 450, 600], [300, 225, 300]], [150, 400, 300] },
        { [[400, 150, 400, 1], [400, 450, 600, 2], [300, 225, 300, 3]], [150, 2, 300] },
        { [[10, 10, 8], [9, 8, 1], [9, 7, 4]], [10, 1, 7] },
        { [[10, 10, 8, 11], [9, 8, 1, 1], [9, 7, 4, 10]], [10, 1, 4] },
        { [[10, None, None], [None, None, 1], [None, 7, None]], [10, 1, 7] },
    };

    [Theory]
    [MemberData(nameof(Published))]
    public void Solve_ScipysProblems_PaysThePublishedCosts(double[][] matrix, double[] published)
    {
        Assert.Equal(published, AssignmentInstance.Solve(AssignmentInstance.Of<double>(matrix)));
        Assert.Equal(published.Select(c => (long)c), AssignmentInstance.Solve(AssignmentInstance.Of<long>(matrix))!);
        Assert.Equal(published.Select(c => (Int128)c), AssignmentInstance.Solve(AssignmentInstance.Of<Int128>(matrix))!);
    }

    // The same file solves every square problem turned over as well: the same costs, in another order.
    [Theory]
    [MemberData(nameof(Published))]
    public void Solve_ScipysSquareProblemsTransposed_PaysTheSameCosts(double[][] matrix, double[] published)
    {
        double[][] turned = AssignmentInstance.Transpose(matrix);
        double[]? costs = AssignmentInstance.Solve(AssignmentInstance.Of<double>(turned));

        if (turned.Length > matrix.Length)
        {
            Assert.Null(costs); // more rows than columns
            return;
        }

        Assert.Equal(published.Order(), costs!.Order());
    }

    /// <summary>
    /// scipy, test_matching.py, test_min_weight_full_matching_infeasible_problems (0 is a pair that may not be), and
    /// scipy/optimize/tests/test_linear_assignment.py, test_linear_sum_assignment_input_inf (the last).
    /// </summary>
    private static readonly double[][][] Infeasible =
    [
        [[1, 1, 1], [1, None, None], [1, None, None]],
        [[1, 1, 1], [None, None, 1], [None, None, 1]],
        [[1, None, None, 1], [1, 1, None, 1], [None, None, None, None]],
        [[1, None, None], [2, None, None]],
        [[None, 1, None], [None, 2, None]],
        [[1, None], [2, None], [5, None]],
        [[None, 0, 0], [None, 1, 0], [None, 0, 1]],
    ];

    [Fact]
    public void Solve_ScipysInfeasibleProblems_SaysSo() =>
        Assert.All(Infeasible, m => Assert.Null(AssignmentInstance.Solve(AssignmentInstance.Of<double>(m))));

    /// <summary>
    /// scipy, test_matching.py, test_min_weight_full_matching_large_infeasible: rows 13, 14, 15 and 21 have only the
    /// columns 0, 2 and 8 between them.
    /// </summary>
    [Fact]
    public void Solve_ScipysLargeInfeasibleProblem_SaysSo()
    {
        (int Column, double Cost)[][] rows =
        [
            [(13, 0.001)], [(14, 0.001)], [(15, 0.001)], [(16, 0.001)], [(17, 0.001)], [(18, 0.001)], [(19, 0.001)],
            [(20, 0.001)], [(21, 0.001)],
            [(1, 0.11687445), (4, 0.01319788), (5, 0.07509257), (9, 0.74228317)],
            [(3, 0.81087935)],
            [(4, 0.8408466), (9, 0.01194389)],
            [(1, 0.82994211), (5, 0.11468516), (9, 0.11173505)],
            [(0, 0.18796507), (2, 0.04002318), (8, 0.75883335)],
            [(2, 0.71545464), (8, 0.02748488)],
            [(0, 0.78470564), (8, 0.14829198)],
            [(1, 0.10870609), (5, 0.8918677), (9, 0.06306644)],
            [(12, 0.63844085)],
            [(6, 0.7442354)],
            [(7, 0.09850549), (10, 0.18638258), (11, 0.2769244)],
            [(7, 0.73182464), (10, 0.46443561), (11, 0.38589284)],
            [(0, 0.29510278), (8, 0.09666032)],
        ];
        double?[][] matrix = [.. rows.Select(_ => new double?[rows.Length])];
        foreach ((int row, (int Column, double Cost)[] pairs) in rows.Index())
        {
            foreach ((int column, double cost) in pairs)
            {
                matrix[row][column] = cost;
            }
        }

        Assert.Null(AssignmentInstance.Solve(matrix));

        // One more column for the four, and it can be done.
        matrix[21][11] = 1;
        matrix[20][11] = null;
        matrix[19][11] = null;
        Assert.NotNull(AssignmentInstance.Solve(matrix));
    }

    // Public repository antma/algo, dlang/AssignmentProblem.d, commit 57a47f85: the greatest sum is 3315.
    [Fact]
    public void Solve_MaximisationNegated_GivesThePublishedSum()
    {
        double[][] gains =
        [
            [7, 53, 183, 439, 863],
            [497, 383, 563, 79, 973],
            [287, 63, 343, 169, 583],
            [627, 343, 773, 959, 943],
            [767, 473, 103, 699, 303],
        ];
        double[][] costs = [.. gains.Select(r => r.Select(g => -g).ToArray())];

        Assert.Equal(-3315, AssignmentInstance.Solve(AssignmentInstance.Of<long>(costs))!.Sum());
    }
}
