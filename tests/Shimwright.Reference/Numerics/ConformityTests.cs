using MathNet.Numerics.Integration;
using Shimwright.Domain.Numerics;
using Shimwright.Testing.Proof;
using Xunit;

namespace Shimwright.Reference.Numerics;

/// <summary>
/// Chances of conformity and the risks of a wrong decision, as JCGM 106:2012 defines them (BIPM, "The role of
/// measurement uncertainty in conformity assessment"), built from <see cref="StandardNormal"/>.
/// The document itself was not at hand: its examples are taken from texts that restate them, named at each check.
/// </summary>
[Proof(Formulas.Conformity, Evidence.Published, "JCGM 106:2012, examples of clauses 7 to 9 as other texts restate them; some from memory, marked there.")]
public class ConformityTests
{
    // Lecture notes TU Braunschweig, public repository dhueser/MDA-Vorlesung-iprom-tu-bs,
    // 06_vorlesung/06_Konformitaetsbewertung.tex, commit 1c535867.
    [Theory]
    [InlineData(2.7, 0.2, double.NegativeInfinity, 3.0, 0.933)] // Φ(1.5): below 0.95, rejected
    [InlineData(0.012, 0.001, 0.010, double.PositiveInfinity, 0.977)] // Φ(2): below 0.99, rejected
    [InlineData(23.5, 0.5, 22, 25, 0.997)] // 0.9987 - 0.0013: accepted (the text prints the lower limit as 20 in one place)
    [InlineData(52, 1, double.NegativeInfinity, 50, 0.023)]
    public void Between_DecisionExamples_GivePublishedChance(double y, double u, double low, double high, double published) =>
        Assert.Equal(published, StandardNormal.Between((low - y) / u, (high - y) / u), 0.0005);

    // JCGM 106:2012, clause 7, from memory: Zener diode, pressure of a container, viscosity of an oil.
    [Theory]
    [InlineData(-5.47, 0.05, double.NegativeInfinity, -5.40, 0.92)]
    [InlineData(507, 8, 490, double.PositiveInfinity, 0.98)]
    [InlineData(13.6, 1.8, 12.5, 16.3, 0.66)]
    public void Between_ClauseSevenExamples_GivePublishedChance(double y, double u, double low, double high, double published) =>
        Assert.Equal(published, StandardNormal.Between((low - y) / u, (high - y) / u), 0.005);

    // JCGM 106:2012, Table 1, from memory.
    [Theory]
    [InlineData(0.80, 0.84)]
    [InlineData(0.90, 1.28)]
    [InlineData(0.95, 1.64)]
    [InlineData(0.99, 2.33)]
    [InlineData(0.999, 3.09)]
    public void Quantile_TableOne_GivesPublishedFactor(double chance, double published) =>
        Assert.Equal(published, StandardNormal.Quantile(chance), 0.005);

    // The same lecture notes: T_U = 20.0, u = 0.3, 95 %: the acceptance limit is 20 - 0.3 · 1.64 ≈ 19.5.
    // 19.506544 was computed in numpy from the same inputs.
    [Fact]
    public void Quantile_GuardedAcceptance_GivesPublishedLimit()
    {
        double limit = 20.0 - (0.3 * StandardNormal.Quantile(0.95));

        Assert.Equal(19.5, limit, 0.05);
        Assert.Equal(19.506544, limit, 5e-7);
    }

    // The same lecture notes: limit 100 km/h, u/v = 2 %, 99.9 %: about 107 km/h. The speed v that is just beyond
    // doubt solves (v - 100) / (0.02 v) = 3.09; 106.59 was computed in numpy.
    [Fact]
    public void Quantile_GuardedRejection_GivesPublishedSpeed()
    {
        double speed = 100 / (1 - (0.02 * StandardNormal.Quantile(0.999)));

        Assert.Equal(107, speed, 0.5);
        Assert.Equal(106.59, speed, 0.005);
    }

    // JCGM 106:2012, 9.5, resistors, as the same lecture notes restate it: y0 = 1500 Ω, u0 = 0.12 Ω,
    // T = [1499.80, 1500.20], u_m = 0.04, A = [1499.82, 1500.18]: p_C ≈ 0.905, R_C ≈ 1 %, R_P ≈ 7 %.
    [Fact]
    public void Between_ResistorsWithGuardBand_GivePublishedRisks()
    {
        (double conforming, double consumer, double producer) = Risks(1499.82, 1500.18);

        Assert.Equal(0.905, conforming, 0.001);
        Assert.Equal(0.01, consumer, 0.0005);
        Assert.Equal(0.07, producer, 0.001);
    }

    // The same example, computed in numpy, with the guard band and without (A = T).
    [Theory]
    [InlineData(1499.82, 1500.18, 0.009878292, 0.069026510)]
    [InlineData(1499.80, 1500.20, 0.018942207, 0.037207800)]
    public void Between_Resistors_GiveComputedRisks(double acceptLow, double acceptHigh, double consumer, double producer)
    {
        (double conforming, double acceptedWrongly, double rejectedWrongly) = Risks(acceptLow, acceptHigh);

        Assert.Equal(0.904419295, conforming, 5e-10);
        Assert.Equal(consumer, acceptedWrongly, 5e-10);
        Assert.Equal(producer, rejectedWrongly, 5e-10);
    }

    private static (double Conforming, double Consumer, double Producer) Risks(double acceptLow, double acceptHigh)
    {
        const double centre = 1500, spread = 0.12, measured = 0.04, low = 1499.80, high = 1500.20;
        double Made(double x) => StandardNormal.Density((x - centre) / spread) / spread;
        double Accepted(double x) => StandardNormal.Between((acceptLow - x) / measured, (acceptHigh - x) / measured);

        return (
            StandardNormal.Between((low - centre) / spread, (high - centre) / spread),
            Integral(x => Made(x) * Accepted(x), centre - (9 * spread), low)
                + Integral(x => Made(x) * Accepted(x), high, centre + (9 * spread)),
            Integral(x => Made(x) * (1 - Accepted(x)), low, high));
    }

    private static double Integral(Func<double, double> f, double from, double to) =>
        GaussLegendreRule.Integrate(f, from, to, 128);
}
