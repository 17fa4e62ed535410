namespace Shimwright.Domain.Numerics;

/// <summary>
/// Integrals over any interval of a function known on a uniform grid: each cell carries the cubic through its
/// four nearest points, so an end that falls between two points costs no accuracy (fourth order in the step).
/// </summary>
internal static class CubicRule
{
    /// <summary>
    /// Weights w with Σ wᵢ·f(xᵢ) = ∫ f over [low, high] ∩ grid. An empty interval gives zeros.
    /// </summary>
    public static double[] Weights(UniformGrid grid, double low, double high)
    {
        double[] weights = new double[grid.Count];
        double from = Math.Max(0, grid.Position(low));
        double to = Math.Min(grid.Count - 1, grid.Position(high));
        if (!(to > from))
        {
            return weights;
        }

        int first = Math.Min((int)from, grid.Count - 2);
        int last = Math.Min((int)to, grid.Count - 2);
        // Whole cells away from the ends of the grid all have the same weights.
        Span<double> whole = stackalloc double[4];
        Fill(whole, 1, 2, grid.Step);
        for (int cell = first; cell <= last; cell++)
        {
            if (cell >= from && cell + 1 <= to && Corner(cell, grid.Count) == cell - 1)
            {
                Add(weights.AsSpan(cell - 1, 4), whole);
            }
            else
            {
                AddCell(weights, cell, Math.Max(from, cell) - cell, Math.Min(to, cell + 1) - cell, grid.Step);
            }
        }

        return weights;
    }

    /// <summary>Adds to the weights those that give the function's value at a point, times a factor.</summary>
    public static void AddPoint(Span<double> weights, UniformGrid grid, double point, double factor)
    {
        double position = grid.Position(point);
        if (!(position >= 0) || !(position <= grid.Count - 1))
        {
            return;
        }

        int corner = Corner((int)position, grid.Count);
        double t = position - corner;
        weights[corner] -= factor * (t - 1) * (t - 2) * (t - 3) / 6;
        weights[corner + 1] += factor * t * (t - 2) * (t - 3) / 2;
        weights[corner + 2] -= factor * t * (t - 1) * (t - 3) / 2;
        weights[corner + 3] += factor * t * (t - 1) * (t - 2) / 6;
    }

    /// <summary>∫ over the part [from, to] (in steps from the cell's left point) of the cell's cubic.</summary>
    public static double Cell(ReadOnlySpan<double> values, int cell, double from, double to, double step)
    {
        int corner = Corner(cell, values.Length);
        Span<double> part = stackalloc double[4];
        Fill(part, cell - corner + from, cell - corner + to, step);
        double sum = 0;
        for (int k = 0; k < 4; k++)
        {
            sum += part[k] * values[corner + k];
        }

        return sum;
    }

    private static void AddCell(double[] weights, int cell, double from, double to, double step)
    {
        int corner = Corner(cell, weights.Length);
        Span<double> part = stackalloc double[4];
        Fill(part, cell - corner + from, cell - corner + to, step);
        Add(weights.AsSpan(corner, 4), part);
    }

    private static void Add(Span<double> weights, ReadOnlySpan<double> part)
    {
        for (int k = 0; k < part.Length; k++)
        {
            weights[k] += part[k];
        }
    }

    private static int Corner(int cell, int count) => Math.Clamp(cell - 1, 0, count - 4);

    /// <summary>The integrals over [from, to] of the four Lagrange polynomials on the points 0, 1, 2, 3.</summary>
    private static void Fill(Span<double> part, double from, double to, double step)
    {
        // Antiderivatives of -(t-1)(t-2)(t-3)/6, t(t-2)(t-3)/2, -t(t-1)(t-3)/2, t(t-1)(t-2)/6.
        part[0] = step * (A0(to) - A0(from));
        part[1] = step * (A1(to) - A1(from));
        part[2] = step * (A2(to) - A2(from));
        part[3] = step * (A3(to) - A3(from));

        static double A0(double t) => -((t * t * t * t / 4) - (2 * t * t * t) + (11 * t * t / 2) - (6 * t)) / 6;
        static double A1(double t) => ((t * t * t * t / 4) - (5 * t * t * t / 3) + (3 * t * t)) / 2;
        static double A2(double t) => -((t * t * t * t / 4) - (4 * t * t * t / 3) + (3 * t * t / 2)) / 2;
        static double A3(double t) => ((t * t * t * t / 4) - (t * t * t) + (t * t)) / 6;
    }
}
