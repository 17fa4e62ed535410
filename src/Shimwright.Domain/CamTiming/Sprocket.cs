using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.CamTiming;

/// <summary>A camshaft's sprocket or gear. It turns at half the crank's speed.</summary>
public sealed record Sprocket
{
    /// <summary>The fewest and most teeth that are taken.</summary>
    public const int FewestTeeth = 8, MostTeeth = 400;

    /// <summary>The furthest that a mark may sit off its line, in radii: beyond it offset and radius must be mixed up.</summary>
    public const double FurthestOffset = 10;

    /// <summary>Makes a sprocket.</summary>
    /// <param name="teeth">Its teeth, 8 to 400.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="teeth"/> is outside its range.</exception>
    public Sprocket(int teeth) => Teeth = (int)Guard.Within(teeth, FewestTeeth, MostTeeth);

    /// <summary>Its teeth.</summary>
    public int Teeth { get; }

    /// <summary>What one tooth is at the camshaft, degrees.</summary>
    public double CamDegreesPerTooth => 360.0 / Teeth;

    /// <summary>What one tooth is at the crank, degrees.</summary>
    public double CrankDegreesPerTooth => 720.0 / Teeth;

    /// <summary>Reads a mark that sits off its line.</summary>
    /// <param name="offset">How far it sits off, mm; positive where it is ahead in running direction.</param>
    /// <param name="radius">Its distance from the camshaft's centre, mm.</param>
    /// <returns>What the offset means.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="radius"/> or <paramref name="offset"/> is outside its range.</exception>
    public MarkReading ReadMark(double offset, double radius)
    {
        Guard.Within(radius, 1, 1000);
        Guard.Within(offset, -radius * FurthestOffset, radius * FurthestOffset);
        double cam = double.RadiansToDegrees(Math.Atan(offset / radius));
        int teeth = (int)Math.Round(cam / CamDegreesPerTooth, MidpointRounding.AwayFromZero);
        return new MarkReading(cam, teeth, cam - (teeth * CamDegreesPerTooth));
    }

    /// <summary>The angle that a distance along a rim stands for: 360·distance/circumference.</summary>
    /// <param name="distance">Distance along the rim, mm.</param>
    /// <param name="diameter">Diameter of the rim, mm.</param>
    /// <returns>Degrees of whatever carries the rim.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="distance"/> or <paramref name="diameter"/> is outside its range.</exception>
    public static double RimAngle(double distance, double diameter) =>
        360 * Guard.Finite(distance) / (Math.PI * Guard.Within(diameter, 1, 10_000));
}

/// <summary>What a mark off its line means.</summary>
/// <param name="CamDegrees">Camshaft degrees; positive where the camshaft is ahead.</param>
/// <param name="Teeth">The nearest whole number of teeth; positive where the camshaft is advanced.</param>
/// <param name="LeftOver">What the teeth do not explain, camshaft degrees.</param>
public sealed record MarkReading(double CamDegrees, int Teeth, double LeftOver);
