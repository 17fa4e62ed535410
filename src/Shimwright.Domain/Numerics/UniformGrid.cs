namespace Shimwright.Domain.Numerics;

/// <summary>Equally spaced points Start, Start + Step, … (Count of them), in millimetres.</summary>
/// <param name="Start">The first point.</param>
/// <param name="Step">The distance between neighbours, above 0.</param>
/// <param name="Count">How many points, at least 4.</param>
internal readonly record struct UniformGrid(double Start, double Step, int Count)
{
    public double End => At(Count - 1);

    public double At(int index) => Start + (index * Step);

    /// <summary>The position of <paramref name="x"/> in steps from the first point.</summary>
    public double Position(double x) => (x - Start) / Step;

    public double[] Points()
    {
        double[] points = new double[Count];
        for (int i = 0; i < Count; i++)
        {
            points[i] = At(i);
        }

        return points;
    }

    /// <summary>A grid with the same step that reaches at least from <paramref name="low"/> to <paramref name="high"/>.</summary>
    public static UniformGrid Spanning(double low, double high, double step) =>
        new(low, step, Math.Max(4, (int)Math.Ceiling((high - low) / step) + 1));
}
