using Shimwright.Domain.Planning;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

/// <summary>Plans that cost the same where the rules pull apart. Random jobs hardly ever come to that.</summary>
public class PlannerTieTests
{
    private const double SecondRound = 100;

    [Theory]
    [InlineData(1, 3, 3, 2, 2, 0)]
    [InlineData(1, 2, 2, 1, 3, 0)]
    [InlineData(2, 2, 1, 2, 2, 2)]
    public void Best_SameObjective_IsThatWhichOpensThenChangesThenBuysLeast(int opened, int changed, int bought, int otherOpened, int otherChanged, int otherBought)
    {
        PlanPoint[] both = [Costing(50, 0.9, opened, changed, bought), Costing(50, 0.8, otherOpened, otherChanged, otherBought)];
        PlanPoint least = both.MinBy(p => (p.Opened * 100) + (p.Changed * 10) + p.Bought)!;
        Assert.Same(least, PlanHull.Best(both, SecondRound));
        Assert.Same(least, PlanHull.Best([both[1], both[0]], SecondRound));
    }

    [Fact]
    public void Best_CheaperByMoreThanRounding_IsTheCheaperWhateverItOpens()
    {
        PlanPoint cheaper = Costing(50, 0.9, 4, 9, 9);
        Assert.Same(cheaper, PlanHull.Best([Costing(50 + 1e-6, 0.8, 1, 1, 0), cheaper], SecondRound));
        Assert.Same(cheaper, PlanHull.Best([Costing(50 + 1e-10, 0.8, 4, 9, 10), cheaper], SecondRound));
    }

    /// <summary>A plan of a given objective and chance.</summary>
    private static PlanPoint Costing(double objective, double chance, int opened, int changed, int bought) =>
        new([], -Math.Log(chance), objective - (SecondRound * (1 - chance)), opened, changed, bought);
}
