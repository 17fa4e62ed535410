using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>One trial of a feeler gauge blade, or of a stack of leaves, and what it felt like.</summary>
public sealed record BladeTrial
{
    /// <summary>The thickest blade or stack that is taken, mm.</summary>
    public const double Thickest = 2;

    /// <summary>The most leaves in a stack.</summary>
    public const int MostLeaves = 10;

    /// <summary>Makes a trial.</summary>
    /// <param name="blade">Nominal thickness of the whole stack, mm, above 0 up to 2.</param>
    /// <param name="feel">What it felt like.</param>
    /// <param name="leaves">Leaves in the stack, 1 to 10.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="blade"/> or <paramref name="leaves"/> is outside its range, or <paramref name="feel"/> is none of the four.</exception>
    public BladeTrial(double blade, Feel feel, int leaves = 1)
    {
        Blade = Guard.Within(blade, double.Epsilon, Thickest);
        Feel = Enum.IsDefined(feel) ? feel : throw new ArgumentOutOfRangeException(nameof(feel));
        Leaves = (int)Guard.Within(leaves, 1, MostLeaves);
    }

    /// <summary>Nominal thickness of the whole stack, mm.</summary>
    public double Blade { get; }

    /// <summary>What it felt like.</summary>
    public Feel Feel { get; }

    /// <summary>Leaves in the stack.</summary>
    public int Leaves { get; }
}
