using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>
/// The chance of a feel and its derivatives by the person's four parameters: the thresholds t₁ &lt; t₂ &lt; t₃, mm, and ω = ln(spread/mm).
/// P(feel j) = (1 - slip)·(Φ((t_j - d)/s) - Φ((t_(j-1) - d)/s)) + slip/4 with s² = spread² + leaves·blade².
/// </summary>
/// <param name="slip">Share of trials whose feel says nothing; taken as known.</param>
/// <param name="blade">Standard uncertainty of one blade's thickness, mm; taken as known.</param>
internal sealed class FeelLikelihood(double slip, double blade)
{
    public const int Parameters = 4;

    /// <summary>The place of ω among the parameters.</summary>
    public const int Omega = 3;

    private const double LeastChance = 1e-300;

    public double Slip => slip;

    public double Blade => blade;

    public static Vector<double> PointOf(FeelProfile feel) =>
        Vector<double>.Build.Dense([feel.Firm, feel.Light, feel.Loose, Math.Log(feel.StandardDeviation)]);

    public static bool IsInDomain(Vector<double> p) => p[0] < p[1] && p[1] < p[2];

    /// <summary>The log-likelihood of trials; null where the thresholds do not rise.</summary>
    public Curvature? Of(IReadOnlyList<FeelTrial> trials, Vector<double> p)
    {
        if (!IsInDomain(p))
        {
            return null;
        }

        double value = 0;
        Span<double> slope = stackalloc double[Parameters];
        Span<double> bend = stackalloc double[Parameters * Parameters];
        double[] slopes = new double[Parameters];
        double[] information = new double[Parameters * Parameters];
        foreach (FeelTrial trial in trials)
        {
            double chance = Chance(trial.Trial.Feel, trial.Play, trial.Trial.Leaves, p, slope, bend);
            value += Math.Log(chance);
            for (int i = 0; i < Parameters; i++)
            {
                slopes[i] += slope[i] / chance;
                for (int j = 0; j < Parameters; j++)
                {
                    int at = (i * Parameters) + j;
                    information[at] += (slope[i] / chance * (slope[j] / chance)) - (bend[at] / chance);
                }
            }
        }

        return new(value, Vector<double>.Build.Dense(slopes), Matrix<double>.Build.Dense(Parameters, Parameters, information));
    }

    /// <summary>The information that a trial is expected to give, whatever it will feel like.</summary>
    public Matrix<double> Expected(double play, int leaves, Vector<double> p)
    {
        Span<double> slope = stackalloc double[Parameters];
        Span<double> bend = stackalloc double[Parameters * Parameters];
        double[] information = new double[Parameters * Parameters];
        for (Feel feel = Feel.No; feel <= Feel.Loose; feel++)
        {
            double chance = Chance(feel, play, leaves, p, slope, bend);
            for (int at = 0; at < information.Length; at++)
            {
                information[at] += slope[at / Parameters] * (slope[at % Parameters] / chance);
            }
        }

        return Matrix<double>.Build.Dense(Parameters, Parameters, information);
    }

    /// <summary>The chance of a feel, with its gradient and its second derivatives, the latter row by row.</summary>
    public double Chance(Feel feel, double play, int leaves, Vector<double> p, Span<double> slope, Span<double> bend)
    {
        slope.Clear();
        bend.Clear();
        double variance = Math.Exp(2 * p[Omega]);
        double s = Math.Sqrt(variance + (leaves * blade * blade));
        int upper = (int)feel;
        int lower = upper - 1;
        double high = double.PositiveInfinity;
        double low = double.NegativeInfinity;
        if (upper < Omega)
        {
            high = (p[upper] - play) / s;
            AddEdge(slope, bend, upper, 1 - slip, high, s, variance);
        }

        if (lower >= 0)
        {
            low = (p[lower] - play) / s;
            AddEdge(slope, bend, lower, slip - 1, low, s, variance);
        }

        return Math.Max(LeastChance, ((1 - slip) * StandardNormal.Between(low, high)) + (slip / 4));
    }

    /// <summary>Adds weight·Φ(u), u = (t - d)/s, to a gradient and to second derivatives by t and ω.</summary>
    private static void AddEdge(Span<double> slope, Span<double> bend, int threshold, double weight, double u, double s, double variance)
    {
        double density = weight * StandardNormal.Density(u);
        double byOmega = variance / s;
        double twiceByOmega = (2 * byOmega) - (byOmega * byOmega / s);
        double bySpread = -u * density / s;
        double mixed = density * ((u * u) - 1) / (s * s) * byOmega;
        slope[threshold] += density / s;
        slope[Omega] += bySpread * byOmega;
        bend[(threshold * Parameters) + threshold] -= u * density / (s * s);
        bend[(threshold * Parameters) + Omega] += mixed;
        bend[(Omega * Parameters) + threshold] += mixed;
        bend[(Omega * Parameters) + Omega] += (u * density * (2 - (u * u)) / (s * s) * byOmega * byOmega) + (bySpread * twiceByOmega);
    }
}
