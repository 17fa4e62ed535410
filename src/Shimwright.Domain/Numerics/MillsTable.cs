namespace Shimwright.Domain.Numerics;

/// <summary>
/// Mills' ratio Φ(-z)/φ(z) where it is wanted a million times: the cubic through tabulated values and slopes, and the
/// asymptotic series beyond. Within 1e-8 of <see cref="StandardNormal.Mills"/>, which fills the table.
/// </summary>
internal static class MillsTable
{
    private const int PerUnit = 32;
    private const double Reach = 12;
    private static readonly double SqrtTwoPi = Math.Sqrt(2 * Math.PI);
    private static readonly double[] Values = Fill(StandardNormal.Mills);
    private static readonly double[] Slopes = Fill(z => ((z * StandardNormal.Mills(z)) - 1) / PerUnit);

    public static double At(double z)
    {
        if (z < 0)
        {
            return (SqrtTwoPi * Math.Exp(0.5 * z * z)) - At(-z);
        }

        double position = z * PerUnit;
        int cell = (int)Math.Min(position, Values.Length);
        if (cell >= Values.Length - 1)
        {
            // Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.12.
            double u = 1 / (z * z);
            return (1 - (u * (1 - (3 * u * (1 - (5 * u * (1 - (7 * u)))))))) / z;
        }

        double t = position - cell;
        double rise = Values[cell + 1] - Values[cell];
        double bend = Slopes[cell] + Slopes[cell + 1] - (2 * rise);
        return Values[cell] + (t * (Slopes[cell] + (t * (((3 * rise) - (2 * Slopes[cell]) - Slopes[cell + 1]) + (t * bend)))));
    }

    private static double[] Fill(Func<double, double> of) =>
        [.. Enumerable.Range(0, (int)(Reach * PerUnit) + 1).Select(k => of(k / (double)PerUnit))];
}
