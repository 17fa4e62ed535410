using MathNet.Numerics.LinearAlgebra;

namespace Shimwright.Domain.Numerics;

/// <summary>A function with its slope and its curvature at a point.</summary>
/// <param name="Value">The value.</param>
/// <param name="Slope">The gradient.</param>
/// <param name="Information">The negated matrix of second derivatives.</param>
internal sealed record Curvature(double Value, Vector<double> Slope, Matrix<double> Information)
{
    private const double Vanishing = 1e-200, Negligible = 1e-30;

    /// <summary>
    /// The information in units in which every parameter has curvature 1 (one that has none keeps its own), so that neither
    /// units nor vanishing numbers matter to what is done with it.
    /// </summary>
    public (Vector<double> Unit, Matrix<double> Information) Scaled()
    {
        Vector<double> unit = Information.Diagonal().Map(d => Math.Abs(d) > Vanishing ? 1 / Math.Sqrt(Math.Abs(d)) : 1);
        Matrix<double> scaled = Matrix<double>.Build.Dense(unit.Count, unit.Count, (i, j) => Information[i, j] * unit[i] * unit[j]);
        scaled.CoerceZero(Negligible);
        return (unit, scaled);
    }
}

/// <summary>Where a climb ended.</summary>
/// <param name="Point">The point.</param>
/// <param name="At">The function there.</param>
/// <param name="Steps">Steps taken.</param>
/// <param name="IsTop">Whether it is a maximum: no step promises to raise the value any more.</param>
internal sealed record Climb(Vector<double> Point, Curvature At, int Steps, bool IsTop);

/// <summary>
/// Newton's method with analytic derivatives, for a handful of parameters: eigenvalues of the wrong sign are turned over, so
/// that every step goes uphill, and a step that leads downhill or out of the domain is halved
/// (J. Nocedal, S. J. Wright, Numerical Optimization, 2nd ed. 2006, section 3.4; from memory).
/// The library's own Newton knows no domain to stay in and ends in exceptions where the maximum lies at infinity.
/// </summary>
internal static class NewtonClimb
{
    private const int MostSteps = 200;
    private const int MostHalvings = 40;
    private const double Enough = 1e-4;

    /// <summary>The rise, relative to the value, below which a step is not worth taking.</summary>
    private const double Flat = 1e-13;

    /// <summary>The least curvature that a step is divided by, where every parameter's own is 1.</summary>
    private const double Singular = 1e-14;

    /// <summary>Climbs from <paramref name="start"/>, where the function must be defined; null elsewhere means out of its domain.</summary>
    public static Climb From(Vector<double> start, Func<Vector<double>, Curvature?> function)
    {
        Vector<double> point = start;
        Curvature at = function(point) ?? throw new ArgumentException("The climb starts outside the domain.", nameof(start));
        for (int step = 0; step < MostSteps; step++)
        {
            Vector<double> direction = Uphill(at);
            double rise = direction * at.Slope;
            bool isFlat = rise <= Flat * (1 + Math.Abs(at.Value));
            (Vector<double> Point, Curvature At)? next = Next(point, at, direction, rise, function);
            if (isFlat)
            {
                // One step more costs nothing and squares the error that is left.
                return next is { } last ? new(last.Point, last.At, step + 1, true) : new(point, at, step, true);
            }

            if (next is null)
            {
                return new(point, at, step, false);
            }

            (point, at) = next.Value;
        }

        return new(point, at, MostSteps, false);
    }

    private static (Vector<double> Point, Curvature At)? Next(
        Vector<double> point, Curvature at, Vector<double> direction, double rise, Func<Vector<double>, Curvature?> function)
    {
        double share = 1;
        for (int k = 0; k < MostHalvings; k++, share /= 2)
        {
            Vector<double> to = point + (share * direction);
            if (function(to) is { } there && there.Value >= at.Value + (Enough * share * rise))
            {
                return (to, there);
            }
        }

        return null;
    }

    private static Vector<double> Uphill(Curvature at)
    {
        (Vector<double> unit, Matrix<double> scaled) = at.Scaled();
        var eigen = scaled.Evd(Symmetricity.Symmetric);
        Vector<double> turned = eigen.EigenVectors.TransposeThisAndMultiply(at.Slope.PointwiseMultiply(unit));
        turned.MapIndexedInplace((i, g) => g / Math.Max(Math.Abs(eigen.EigenValues[i].Real), Singular));
        return (eigen.EigenVectors * turned).PointwiseMultiply(unit);
    }
}
