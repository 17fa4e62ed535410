using Shimwright.Domain.Shims;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>A physical shim: what it is, what is stamped on it, and what a micrometer once said of it.</summary>
internal sealed class Shim(double nominal, double actual)
{
    /// <summary>The sizes that kit and shop have: 1.50 to 3.50 in steps of 0.05.</summary>
    public static SizeRange Sizes { get; } = new(1.5, 3.5, 0.05, 6);

    public double Nominal => nominal;

    public double Actual => actual;

    public double? Measured { get; set; }

    /// <summary>What the mechanic knows of it.</summary>
    public Thickness Reading => Measured is { } measured
        ? new(measured, Instrument.Micrometer)
        : new(nominal, Instrument.Marked);

    /// <summary>A shim of a size, off its mark by as much as the model says.</summary>
    public static Shim Make(double nominal, Draws draws) =>
        new(nominal, nominal + draws.Normal(Instrument.Marked.Random));

    /// <summary>The size nearest to a thickness.</summary>
    public static double SizeNear(double thickness) => Math.Round(
        Math.Clamp(Math.Round(thickness / Sizes.Step) * Sizes.Step, Sizes.From, Sizes.To), 9);
}
