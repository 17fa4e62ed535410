namespace Shimwright.Domain.Numerics;

/// <summary>
/// What becomes of a density on a uniform grid when an exponential loss is taken off: h(y) = ∫ f(y + u)·e^(-u/mean)/mean du.
/// It runs down the grid from the top: each cell adds the cubic through its four nearest points against the exponential's
/// exact weights, so that it is of fourth order in the step whatever the mean, also where that is far below a step.
/// </summary>
internal readonly struct ExponentialConvolution
{
    /// <summary>Below this many means a step, the recursion of the moments would lose its digits.</summary>
    private const double SeriesBelow = 2;
    private const int SeriesTerms = 24;
    private readonly double _kept;
    private readonly double _before;
    private readonly double _here;
    private readonly double _next;
    private readonly double _afterNext;

    public ExponentialConvolution(double mean, double step)
    {
        double a = step / mean;
        _kept = Math.Exp(-a);
        double m0 = -double.ExpM1(-a);
        (double m1, double m2, double m3) = a < SeriesBelow ? (Series(a, 1), Series(a, 2), Series(a, 3)) : Recursion(a, _kept, m0);

        // ∫ of the Lagrange polynomials on -1, 0, 1, 2 against a·e^(-a·t), t from 0 to 1 in the cell.
        _before = (-m3 + (3 * m2) - (2 * m1)) / 6;
        _here = (m3 - (2 * m2) - m1 + (2 * m0)) / 2;
        _next = (-m3 + m2 + (2 * m1)) / 2;
        _afterNext = (m3 - m1) / 6;
    }

    /// <summary>Fills <paramref name="into"/>; the density counts as 0 beyond its ends.</summary>
    public void Apply(ReadOnlySpan<double> density, Span<double> into)
    {
        int last = density.Length - 1;
        double h = 0;
        for (int i = last; i >= 0; i--)
        {
            double added = _here * density[i];
            added += i > 0 ? _before * density[i - 1] : 0;
            added += i + 1 <= last ? _next * density[i + 1] : 0;
            added += i + 2 <= last ? _afterNext * density[i + 2] : 0;
            h = (_kept * h) + added;
            into[i] = h;
        }
    }

    /// <summary>∫ a·e^(-a·t)·t^power over [0, 1] as a power series in a.</summary>
    private static double Series(double a, int power)
    {
        double sum = 0;
        double term = a;
        for (int k = 0; k < SeriesTerms; k++)
        {
            sum += term / (k + power + 1);
            term *= -a / (k + 1);
        }

        return sum;
    }

    private static (double First, double Second, double Third) Recursion(double a, double kept, double m0)
    {
        double m1 = (m0 / a) - kept;
        double m2 = (2 * m1 / a) - kept;
        return (m1, m2, (3 * m2 / a) - kept);
    }
}
