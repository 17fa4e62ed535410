using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Tests;

/// <summary>Chance that is the same on every run: what a test draws from its own fixed seed.</summary>
internal sealed class SeededChance(int seed)
{
    private readonly Random _random = new(seed);

    public double Uniform(double low = 0, double high = 1) => low + ((high - low) * _random.NextDouble());

    public int Whole(int low, int high) => _random.Next(low, high + 1);

    public bool Happens(double chance) => _random.NextDouble() < chance;

    /// <summary>By inversion, one draw a value, so that the order of the draws is plain.</summary>
    public double Normal(double mean = 0, double sd = 1) =>
        mean + (sd * StandardNormal.Quantile(Math.Max(1e-12, _random.NextDouble())));

    public double Exponential(double mean) => -mean * Math.Log(1 - _random.NextDouble());

    /// <summary>An exponential cut off at <paramref name="most"/> and renormalised.</summary>
    public double Exponential(double mean, double most) =>
        -mean * Math.Log(1 - (_random.NextDouble() * (1 - Math.Exp(-most / mean))));

    public T Pick<T>(params ReadOnlySpan<T> items) => items[_random.Next(items.Length)];

    public T[] Shuffled<T>(IEnumerable<T> items)
    {
        T[] all = [.. items];
        _random.Shuffle(all);
        return all;
    }
}
