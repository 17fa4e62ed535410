namespace Shimwright.Testing.Chance;

/// <summary>
/// A seeded stream of chance. Streams are named by numbers (engine, purpose, round, valve), so that every strategy
/// meets the same fingers and the same shims at the same place, and the result is the same on every machine.
/// SplitMix64: G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, figure 17
/// (constants from memory).
/// </summary>
internal sealed class Draws
{
    private ulong _state;

    public Draws(params ReadOnlySpan<int> name)
    {
        foreach (int part in name)
        {
            _state = Mix(_state + (uint)part + 0x9E3779B97F4A7C15);
        }
    }

    /// <summary>Evenly in (0, 1).</summary>
    public double Uniform()
    {
        _state += 0x9E3779B97F4A7C15;
        return ((Mix(_state) >> 11) + 0.5) / (1UL << 53);
    }

    public double Uniform(double low, double high) => low + ((high - low) * Uniform());

    /// <summary>One of 0, 1, …, below <paramref name="count"/>.</summary>
    public int Below(int count) => (int)(Uniform() * count);

    /// <summary>An id.</summary>
    public Guid Id()
    {
        byte[] bytes = new byte[16];
        for (int i = 0; i < bytes.Length; i++)
        {
            bytes[i] = (byte)Below(256);
        }

        return new Guid(bytes);
    }

    public bool Happens(double chance) => Uniform() < chance;

    /// <summary>By Box and Muller's transformation.</summary>
    public double Normal(double sigma) =>
        sigma * Math.Sqrt(-2 * Math.Log(Uniform())) * Math.Cos(2 * Math.PI * Uniform());

    public double Exponential(double mean) => -mean * Math.Log(Uniform());

    /// <summary>Density proportional to exp(-x / scale) on [0, greatest].</summary>
    public double CutExponential(double scale, double greatest) =>
        -scale * Math.Log(1 - (Uniform() * -double.ExpM1(-greatest / scale)));

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
