using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// The shared losses that are considered, from 0 to 0.24 mm, and what each weighs before the readings: exp(-l / scale),
/// renormalised. They are Gauss points in a few panels, denser where a few valves of a narrow band tell losses apart.
/// </summary>
internal sealed class LossNodes
{
    /// <summary>The panels' ends as parts of the greatest shared loss that has any weight.</summary>
    private static readonly double[] Ends = [0, 0.125, 0.375, 1];

    /// <summary>How many of its own scales a shared loss may come to: beyond, its weight is below 1e-17.</summary>
    private const double Scales = 40;

    /// <summary>A weight of the losses is smooth: a panel needs fewer points than for what bends at every scale.</summary>
    private const double Smoothness = 1.6;

    private LossNodes(double[] losses, double[] weights)
    {
        Losses = losses;
        double total = weights.Sum();
        LogWeights = Array.ConvertAll(weights, w => Math.Log(w / total));
    }

    /// <summary>The losses, smallest first, mm.</summary>
    public double[] Losses { get; }

    /// <summary>ln of what each weighs.</summary>
    public double[] LogWeights { get; }

    /// <summary>The losses for an engine.</summary>
    /// <param name="loss">What is expected of it.</param>
    /// <param name="bandScale">The standard deviation with which its tightest band places a valve, mm.</param>
    /// <param name="valves">How many valves tell of the loss together.</param>
    public static LossNodes For(LossPrior loss, double bandScale, int valves)
    {
        double reach = Math.Min(LossPrior.GreatestShared, Scales * loss.Shared);
        List<double> losses = [];
        List<double> weights = [];
        for (int p = 0; p + 1 < Ends.Length; p++)
        {
            (double low, double high) = (Ends[p] * reach, Ends[p + 1] * reach);
            var rule = GaussRule.For(high - low, Math.Min(2 * loss.Shared, Smoothness * ScaleAt(low, bandScale, loss.Own, valves)));
            for (int i = 0; i < rule.Order; i++)
            {
                (double l, double weight) = rule.At(i, low, high);
                losses.Add(l);
                weights.Add(weight * Math.Exp(-l / loss.Shared));
            }
        }

        return new([.. losses], [.. weights]);
    }

    /// <summary>How closely the valves can tell a shared loss together: by their places in the band, what each lost alone, and their shares of it.</summary>
    private static double ScaleAt(double l, double bandScale, double own, int valves) =>
        Math.Sqrt((Squares.Of(bandScale) + ((Squares.Of(own) + Squares.Of(l)) / 2)) / valves);
}
