namespace Shimwright.Reference.Numerics;

/// <summary>
/// The combined standard uncertainty of correlated parts: JCGM 100:2008 (GUM), 5.2.2, equation 16. The rule against
/// which the product's two shortcuts are held; itself held against the budget of the published example H.2.
/// </summary>
internal static class CorrelatedParts
{
    public static double Combine(double[] sensitivities, double[] uncertainties, double[,] correlations)
    {
        double sum = 0;
        for (int i = 0; i < sensitivities.Length; i++)
        {
            for (int j = 0; j < sensitivities.Length; j++)
            {
                sum += sensitivities[i] * uncertainties[i] * sensitivities[j] * uncertainties[j] * correlations[i, j];
            }
        }

        return Math.Sqrt(Math.Max(0, sum));
    }
}
