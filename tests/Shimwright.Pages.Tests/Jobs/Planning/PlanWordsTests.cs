using Shimwright.Jobs.Results;
using Shimwright.Pages.Jobs.Planning;

namespace Shimwright.Pages.Tests.Jobs.Planning;

public class PlanWordsTests
{
    /// <summary>Whoever fits a shim looks for it where the words say.</summary>
    [Fact]
    public void Source_OfEachKind_SaysWhereTheShimIs()
    {
        Assert.Equal("drawer B3, micrometer", PlanWords.Source(new(2.4, "micrometer", "drawer", null), "B3"));
        Assert.Equal("out of I2", PlanWords.Source(new(2.4, "micrometer", "engine", "I2")));
        Assert.Equal("buy", PlanWords.Source(new(2.4, "marked", "buy", null)));
    }

    [Fact]
    public void Action_ValveThatNothingFits_IsNotToBeLeftAlone()
    {
        Assert.Equal("no suitable shim", PlanWords.Action(Row("keep", null)));
        Assert.Equal("leave alone", PlanWords.Action(Row("keep", 0.97)));
        Assert.Equal("change", PlanWords.Action(Row("fit", 0.9)));
    }

    private static PlanRow Row(string action, double? chance) => new("I1", new(0.05, 0.01, 0.03, 0.07, 0.1, "out"), action, null, null, null, chance, null, "");
}
