using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>
/// The 95 % interval of one parameter by the profile of the likelihood: all values at which the best fit of the others is not
/// significantly worse (D. J. Venzon, S. H. Moolgavkar, Applied Statistics 37 (1988) 87-94; from memory). With few trials
/// Student's t in the place of the normal law widens it a little; the simulation in the tests shows that it then keeps its word.
/// </summary>
internal static class ProfileInterval
{
    private const double Confidence = 0.95;
    private const double FurthestInErrors = 40;
    private const int Halvings = 18;

    public static (double Low, double High) Of(
        Climb top, int parameter, double error, IReadOnlyList<FeelTrial> trials, FeelLikelihood likelihood)
    {
        double t = StudentT.InvCDF(0, 1, trials.Count - FeelLikelihood.Parameters, (1 + Confidence) / 2);
        return (End(-1), End(1));

        double End(int side)
        {
            double inside = 0;
            double outside = t;
            while (IsInside(outside))
            {
                inside = outside;
                outside *= 1.5;
                if (outside > FurthestInErrors)
                {
                    // The trials do not bound it on this side.
                    return top.Point[parameter] + (side * FurthestInErrors * error);
                }
            }

            // Halving, since slips give the likelihood more than one top and the profile its kinks.
            for (int k = 0; k < Halvings; k++)
            {
                double middle = (inside + outside) / 2;
                (inside, outside) = IsInside(middle) ? (middle, outside) : (inside, middle);
            }

            return top.Point[parameter] + (side * outside * error);

            bool IsInside(double errors) => 2 * (top.At.Value - Profile(top.Point[parameter] + (side * errors * error))) <= t * t;
        }

        double Profile(double value) => Constrained(top.Point, parameter, value, trials, likelihood).At.Value;
    }

    /// <summary>The best fit with one parameter held.</summary>
    private static Climb Constrained(Vector<double> start, int held, double value, IReadOnlyList<FeelTrial> trials, FeelLikelihood likelihood)
    {
        Vector<double> from = start.Clone();
        from[held] = value;
        KeepRising(from, held);
        return NewtonClimb.From(from, p =>
        {
            if (likelihood.Of(trials, p) is not { } at)
            {
                return null;
            }

            at.Slope[held] = 0;
            at.Information.ClearRow(held);
            at.Information.ClearColumn(held);
            at.Information[held, held] = 1;
            return at;
        });
    }

    /// <summary>Moves the neighbours of a held threshold out of its way.</summary>
    private static void KeepRising(Vector<double> p, int held)
    {
        const double apart = 1e-4;
        for (int i = held + 1; i < FeelLikelihood.Omega; i++)
        {
            p[i] = Math.Max(p[i], p[i - 1] + apart);
        }

        for (int i = Math.Min(held, FeelLikelihood.Omega) - 1; i >= 0 && held < FeelLikelihood.Omega; i--)
        {
            p[i] = Math.Min(p[i], p[i + 1] - apart);
        }
    }
}
