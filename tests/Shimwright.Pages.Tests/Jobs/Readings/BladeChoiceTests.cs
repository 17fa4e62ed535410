using Shimwright.Domain.Engines;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Jobs.Readings;

namespace Shimwright.Pages.Tests.Jobs.Readings;

public class BladeChoiceTests
{
    private static readonly IReadOnlyList<double> Blades = new BenchSettings().Blades;

    [Fact]
    public void For_AUsualBand_OffersTheBladesAboutItThinFirst()
    {
        BladeChoice choice = BladeChoice.For(Blades, new ClearanceBand(0.10, 0.17), 0.13, 0.13);
        Assert.Equal([0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20], choice.Near);
        Assert.Equal([0.23, 0.25, 0.28, 0.30, 0.35, 0.40], choice.Others);
    }

    [Fact]
    public void For_AValveFarOutOfBand_OffersBladesWhereItIsToo()
    {
        BladeChoice choice = BladeChoice.For(Blades, new ClearanceBand(0.10, 0.17), 0.35, null);
        Assert.Contains(0.35, choice.Near);
        Assert.Contains(0.13, choice.Near);
    }

    [Fact]
    public void For_ASuggestedBladeFarAway_OffersItFirstHand() =>
        Assert.Contains(0.40, BladeChoice.For(Blades, new ClearanceBand(0.10, 0.17), 0.13, 0.40).Near);

    [Theory]
    [InlineData(0.02, 0.03, 0.02)]
    [InlineData(1.0, 1.2, 1.1)]
    [InlineData(0.05, 3.0, 0.2)]
    public void For_AnyBand_LosesNoBladeAndOffersFourToEight(double low, double high, double expected)
    {
        BladeChoice choice = BladeChoice.For(Blades, new ClearanceBand(low, high), expected, null);
        Assert.Equal(Blades.Order(), choice.Near.Concat(choice.Others).Order());
        Assert.InRange(choice.Near.Count, 4, 8);
        Assert.Equal(choice.Near.Order(), choice.Near);
    }

    [Fact]
    public void For_NoBladesAtAll_OffersNone() => Assert.Empty(BladeChoice.For([], new ClearanceBand(0.10, 0.17), 0.13, null).Near);
}
