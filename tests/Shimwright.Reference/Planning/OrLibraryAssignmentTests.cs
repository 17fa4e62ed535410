using System.Globalization;
using Shimwright.Reference.Published;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Planning;

[Proof(Formulas.Assignment, Evidence.Published, "OR-Library, assign100 (J. E. Beasley): optimum 305.")]
public class OrLibraryAssignmentTests
{
    // J. E. Beasley, OR-Library, assign100; the optimum 305 as data/published/or-library/README.md says.
    [Theory]
    [PublishedFile("or-library/assign100.txt")]
    public void Solve_Assign100_GivesThePublishedOptimum(PublishedFile file)
    {
        long[] numbers =
            [.. file.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(n => long.Parse(n, CultureInfo.InvariantCulture))];
        long?[][] costs = [.. numbers.Skip(1).Chunk((int)numbers[0]).Select(r => r.Select(c => (long?)c).ToArray())];

        long[]? paid = AssignmentInstance.Solve(costs);

        Assert.Equal(100, costs.Length);
        Assert.All(costs, r => Assert.Equal(100, r.Length));
        Assert.Equal(305, paid!.Sum());
    }
}
