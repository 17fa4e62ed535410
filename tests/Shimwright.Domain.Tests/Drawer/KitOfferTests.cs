using Shimwright.Domain.Drawer;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Shims;
using Xunit;

namespace Shimwright.Domain.Tests.Drawer;

public class KitOfferTests
{
    [Fact]
    public void Compare_OneValveThatIsSure_IsTheChanceOfTheNearestSize()
    {
        KitOffer offer = Assert.Single(KitOffer.Compare(
            [Kit(2.0, 3.0, 0.05, 3, 100)], [new ThicknessWant(2.51, 1e-6, 0.035)], error: 0.012, worth: 50));

        double passes = StandardNormal.Between((-0.035 + 0.01) / 0.012, (0.035 + 0.01) / 0.012);
        Assert.Equal(passes, offer.Passing, 1e-6);
        Assert.Equal((50 * passes) - 100, offer.Gain, 1e-4);
    }

    [Fact]
    public void Compare_ManyValves_AgreesWithASimulation()
    {
        var chance = new SeededChance(65);
        ThicknessWant[] wants = [.. Enumerable.Range(0, 12).Select(_ => new ThicknessWant(chance.Uniform(2.3, 2.7), 0.03, 0.03, chance.Uniform(0.3, 1)))];
        Kit kit = Kit(2.2, 2.7, 0.1, 2, 60);
        KitOffer offer = KitOffer.Compare([kit], wants, 0.015, 10)[0];
        double[] sizes = [2.2, 2.3, 2.4, 2.5, 2.6, 2.7];
        const int years = 20_000;
        double passed = 0;
        for (int year = 0; year < years; year++)
        {
            int[] left = [2, 2, 2, 2, 2, 2];
            foreach (ThicknessWant want in chance.Shuffled(wants))
            {
                if (chance.Happens(want.Chance))
                {
                    double thickness = chance.Normal(want.Middle, want.StandardDeviation);
                    int size = sizes.Index().MinBy(s => Math.Abs(s.Item - thickness)).Index;
                    if (left[size]-- > 0 && Math.Abs(sizes[size] - thickness + chance.Normal(0, 0.015)) <= want.Tolerance)
                    {
                        passed++;
                    }
                }
            }
        }

        Assert.Equal(passed / years, offer.Passing, 0.04);
        Assert.Equal(wants.Sum(w => w.Chance), offer.Wanted, 1e-12);
        Assert.InRange(offer.Share, 0.2, 0.95);
    }

    [Fact]
    public void Compare_FinerSteps_ServeMoreAndWinWhereThatIsWorthIt()
    {
        Kit coarse = Kit(2.0, 3.0, 0.10, 3, 40), fine = Kit(2.0, 3.0, 0.025, 3, 160);
        ThicknessWant[] wants = [.. Enumerable.Range(0, 10).Select(i => new ThicknessWant(2.1 + (0.08 * i), 0.05, 0.035))];

        IReadOnlyList<KitOffer> cheap = KitOffer.Compare([coarse, fine], wants, 0.012, 5);
        IReadOnlyList<KitOffer> dear = KitOffer.Compare([coarse, fine], wants, 0.012, 90);

        Assert.Equal(coarse, cheap[0].Kit);
        Assert.Equal(fine, dear[0].Kit);
        Assert.True(dear[0].Passing > dear[1].Passing);
        Assert.DoesNotContain(dear, o => o.IsDominated);
    }

    [Fact]
    public void Compare_SameKitForMore_IsDominated()
    {
        ThicknessWant[] wants = [new ThicknessWant(2.5, 0.05, 0.035)];
        IReadOnlyList<KitOffer> offers = KitOffer.Compare([Kit(2, 3, 0.05, 1, 90), Kit(2, 3, 0.05, 1, 80)], wants, 0.012, 10);
        Assert.Equal([80, 90], offers.Select(o => o.Kit.Price));
        Assert.Equal([false, true], offers.Select(o => o.IsDominated));
    }

    [Fact]
    public void Compare_KitThatDoesNotReachTheFleet_ServesNone() =>
        Assert.Equal(0, KitOffer.Compare([Kit(1.2, 1.6, 0.05, 3, 50)], [new ThicknessWant(2.8, 0.02, 0.035)], 0.012, 10)[0].Passing, 1e-9);

    [Fact]
    public void Compare_NoWants_IsAllPrice()
    {
        KitOffer offer = KitOffer.Compare([Kit(2, 3, 0.05, 1, 90)], [], 0.012, 10)[0];
        Assert.Equal((0, 0, -90), (offer.Share, offer.Passing, offer.Gain));
    }

    [Fact]
    public void Compare_WhatCannotBe_IsRefused()
    {
        Refuses.NotANumber("middle", m => new ThicknessWant(m, 0.1, 0.1));
        Refuses.NotANumber("spread", s => new ThicknessWant(2, s, 0.1));
        Refuses.OutOfRange("chance", 1.2, "0 to 1", () => new ThicknessWant(2, 0.1, 0.1, 1.2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Kit(2, 3, 0.05, 0, 90));
        Assert.Throws<ArgumentOutOfRangeException>(() => KitOffer.Compare([], [], 0, 1));
    }

    private static Kit Kit(double from, double to, double step, int each, double price) => new(new SizeRange(from, to, step, 0), each, price);
}
