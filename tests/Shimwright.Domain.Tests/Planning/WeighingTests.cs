using Shimwright.Domain.Planning;
using Xunit;

namespace Shimwright.Domain.Tests.Planning;

public class WeighingTests
{
    private static readonly PlanScale Scale = new(1800, 200_000);
    private static readonly ValveOption Kept = new() { Action = ValveAction.Keep, Chance = 1 };
    private static readonly ValveOption Fitted = new() { Action = ValveAction.Fit, Chance = 1, Source = ShimSource.Drawer };
    private static readonly ValveOption Bought = new() { Action = ValveAction.Fit, Chance = 1, Source = ShimSource.Buy };
    private static readonly ValveOption Stranded = new() { Action = ValveAction.Keep, Chance = 1, IsStranded = true };
    private static readonly ValveOption Doubtful = new() { Action = ValveAction.Keep, Chance = 0.5 };
    private static readonly ValveOption Dear = new() { Action = ValveAction.Fit, Chance = 1, Minutes = 50, Source = ShimSource.Drawer };

    public static TheoryData<string> Names => ["minutes and doubt", "doubt first", "minutes only"];

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_EqualPlans_PrefersFewerOpenedThenChangedThenBought(string name)
    {
        Weighing weighing = Make(name);
        Int128 opened = weighing.OfOpened(0);
        Int128 fitted = weighing.Of(Fitted);
        Int128 bought = weighing.Of(Bought);
        Assert.True(opened + (64 * bought) < (2 * opened) + (2 * fitted));
        Assert.True((2 * opened) + (3 * bought) < (2 * opened) + (4 * fitted));
        Assert.True((2 * opened) + (3 * fitted) < (2 * opened) + (2 * fitted) + bought);
        Assert.Equal(0, weighing.Of(Kept));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_StrandedValve_IsWorseThanAnythingElseTogether(string name)
    {
        Weighing weighing = Make(name);
        ValveOption worst = new() { Action = ValveAction.Fit, Chance = 0, Minutes = 1500, Source = ShimSource.Buy };
        Assert.True((64 * weighing.Of(worst)) + (64 * weighing.OfOpened(1500)) < weighing.Of(Stranded));
    }

    [Fact]
    public void Of_Lambda_IsTheRateOfDoubtAgainstMinutes()
    {
        // One half is 0.693 of doubt: 50 minutes buy it off at 73 minutes a unit, not at 71.
        Assert.True(Weighing.MinutesPerDoubt(73, Scale).Of(Dear) < Weighing.MinutesPerDoubt(73, Scale).Of(Doubtful));
        Assert.True(Weighing.MinutesPerDoubt(71, Scale).Of(Dear) > Weighing.MinutesPerDoubt(71, Scale).Of(Doubtful));
    }

    [Fact]
    public void Of_DoubtFirst_TakesLessDoubtAtAnyPriceThenFewerMinutes()
    {
        Weighing weighing = Weighing.DoubtFirst(Scale);
        Assert.True(weighing.Of(Dear) < weighing.Of(Doubtful));
        Assert.True(weighing.Of(Fitted) < weighing.Of(Dear));
    }

    [Fact]
    public void Of_MinutesOnly_CountsDoubtLast()
    {
        Weighing weighing = Weighing.MinutesOnly(Scale);
        Assert.True(weighing.Of(Doubtful) < weighing.Of(Fitted));
        Assert.True(weighing.Of(Kept) < weighing.Of(Doubtful));
    }

    private static Weighing Make(string name) => name switch
    {
        "minutes and doubt" => Weighing.MinutesPerDoubt(100, Scale),
        "doubt first" => Weighing.DoubtFirst(Scale),
        _ => Weighing.MinutesOnly(Scale),
    };
}
