using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Shims;

/// <summary>
/// How a thickness was found. Its repeatability is new at every thickness; its shared part is the same for all
/// thicknesses taken with that instrument and cancels in their differences.
/// The defaults are common practice, no source; a micrometer of 4 µm limit (DIN 863-1) and a calliper of
/// 20 µm limit (DIN 862) lie about them.
/// </summary>
public sealed record Instrument
{
    /// <summary>The greatest uncertainty that is taken, mm (the least is 0).</summary>
    public const double GreatestUncertainty = 0.1;

    /// <summary>Makes an instrument.</summary>
    /// <param name="name">What it is called; two thicknesses with the same name share their systematic part.</param>
    /// <param name="repeatability">Standard uncertainty that is new at every thickness, mm.</param>
    /// <param name="shared">Standard uncertainty that all thicknesses share, mm.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="repeatability"/> or <paramref name="shared"/> is outside its range.</exception>
    /// <exception cref="ArgumentException"><paramref name="name"/> is blank.</exception>
    public Instrument(string name, double repeatability, double shared)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Name = name;
        Random = Guard.Within(repeatability, 0, GreatestUncertainty);
        Systematic = Guard.Within(shared, 0, GreatestUncertainty);
    }

    /// <summary>Read off the shim's mark.</summary>
    public static Instrument Marked { get; } = new("marked", 0.008, 0);

    /// <summary>Measured with a calliper.</summary>
    public static Instrument Calliper { get; } = new("calliper", 0.006, 0.010);

    /// <summary>Measured with a micrometer.</summary>
    public static Instrument Micrometer { get; } = new("micrometer", 0.002, 0.002);

    /// <summary>What it is called.</summary>
    public string Name { get; }

    /// <summary>Standard uncertainty that is new at every thickness, mm.</summary>
    public double Random { get; }

    /// <summary>Standard uncertainty that all thicknesses taken with it share, mm.</summary>
    public double Systematic { get; }
}
