using MathNet.Numerics.LinearAlgebra;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>
/// Ordered probit regression by maximum likelihood, for any number of covariates and categories
/// (P. McCullagh, "Regression models for ordinal data", J. R. Statist. Soc. B 42 (1980) 109-142, section 5 of which is its
/// Newton's method; the log-likelihood is concave: J. W. Pratt, J. Am. Statist. Assoc. 76 (1981) 103-106; both from memory).
/// </summary>
public static class OrderedProbit
{
    /// <summary>A standard error of the linear predictor, in its own unit, above which the maximum lies at infinity.</summary>
    private const double Runaway = 25;

    /// <summary>The condition of the information, in units in which every parameter has curvature 1, above which it has no inverse.</summary>
    private const double Singular = 1e12;

    /// <summary>Smaller chances have lost the digits that their logarithm's slopes need.</summary>
    private const double LeastChance = 1e-280;

    /// <summary>Fits the model.</summary>
    /// <param name="observations">What was observed, each with the same number of covariates.</param>
    /// <param name="categories">How many categories there are, 2 or more.</param>
    /// <returns>The fit, or why there is none.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="observations"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="categories"/> is below 2.</exception>
    /// <exception cref="ArgumentException"><paramref name="observations"/> have not all as many covariates, or one has a category that does not exist.</exception>
    public static OrderedProbitFit Fit(IReadOnlyList<OrderedObservation> observations, int categories)
    {
        ArgumentNullException.ThrowIfNull(observations);
        ArgumentOutOfRangeException.ThrowIfLessThan(categories, 2);
        OrderedObservation[] counted = [.. observations.Where(o => o.Weight > 0)];
        int covariates = observations.Count == 0 ? 0 : observations[0].Covariates.Count;
        if (observations.Any(o => o.Covariates.Count != covariates || o.Category >= categories))
        {
            throw new ArgumentException("Every observation needs the same covariates and a category that exists.", nameof(observations));
        }

        double[] weights = new double[categories];
        foreach (OrderedObservation o in counted)
        {
            weights[o.Category] += o.Weight;
        }

        if (weights.Any(w => w == 0))
        {
            return OrderedProbitFit.None(OrderedProbitStatus.CategoryMissing);
        }

        Climb climb = NewtonClimb.From(Start(weights, covariates), p => At(p, counted, covariates));
        return Describe(climb, counted, covariates);
    }

    /// <summary>No effect of any covariate, and thresholds that give each category its share.</summary>
    private static Vector<double> Start(double[] weights, int covariates)
    {
        var start = Vector<double>.Build.Dense(covariates + weights.Length - 1);
        double below = 0;
        for (int j = 0; j + 1 < weights.Length; j++)
        {
            below += weights[j];
            start[covariates + j] = StandardNormal.Quantile(below / weights.Sum());
        }

        return start;
    }

    private static OrderedProbitFit Describe(Climb climb, OrderedObservation[] observations, int covariates)
    {
        (Vector<double> unit, Matrix<double> information) = climb.At.Scaled();
        if (!climb.IsTop || information.ConditionNumber() > Singular)
        {
            return OrderedProbitFit.None(OrderedProbitStatus.Separated, climb.Steps);
        }

        Matrix<double> inverse = information.Inverse();
        Matrix<double> covariance = Matrix<double>.Build.Dense(unit.Count, unit.Count, (i, j) => inverse[i, j] * unit[i] * unit[j]);
        if (observations.Any(o => Edges(o, climb.Point.Count, covariates).Any(e => !(e * covariance * e <= Runaway * Runaway))))
        {
            return OrderedProbitFit.None(OrderedProbitStatus.Separated, climb.Steps);
        }

        FittedParameter[] all = [.. climb.Point.Select((p, i) => new FittedParameter(p, Math.Sqrt(covariance[i, i])))];
        return new(OrderedProbitStatus.Fitted, all[..covariates], all[covariates..], climb.At.Value, climb.Steps);
    }

    /// <summary>Log-likelihood with its derivatives; null where the thresholds do not rise, or an observation is all but impossible.</summary>
    private static Curvature? At(Vector<double> parameters, OrderedObservation[] observations, int covariates)
    {
        double value = 0;
        var slope = Vector<double>.Build.Dense(parameters.Count);
        var information = Matrix<double>.Build.Dense(parameters.Count, parameters.Count);
        foreach (OrderedObservation o in observations)
        {
            double score = 0;
            for (int i = 0; i < covariates; i++)
            {
                score += parameters[i] * o.Covariates[i];
            }

            int thresholds = parameters.Count - covariates;
            double low = o.Category == 0 ? double.NegativeInfinity : parameters[covariates + o.Category - 1] - score;
            double high = o.Category == thresholds ? double.PositiveInfinity : parameters[covariates + o.Category] - score;
            double chance = StandardNormal.Between(low, high);
            if (!(chance > LeastChance))
            {
                return null;
            }

            (Vector<double> lower, Vector<double> upper) = EdgePair(o, parameters.Count, covariates);
            Vector<double> first = ((Density(high) * upper) - (Density(low) * lower)) / chance;
            value += o.Weight * Math.Log(chance);
            slope += o.Weight * first;
            information += o.Weight * (first.OuterProduct(first)
                + (((Bend(high) * upper.OuterProduct(upper)) - (Bend(low) * lower.OuterProduct(lower))) / chance));
        }

        return new(value, slope, information);
    }

    /// <summary>How the lower and the upper edge of an observation's category move with the parameters; nought where there is none.</summary>
    private static (Vector<double> Lower, Vector<double> Upper) EdgePair(OrderedObservation o, int parameters, int covariates)
    {
        Vector<double> Edge(int threshold)
        {
            var edge = Vector<double>.Build.Dense(parameters);
            if (threshold >= 0 && threshold < parameters - covariates)
            {
                edge[covariates + threshold] = 1;
                for (int i = 0; i < covariates; i++)
                {
                    edge[i] = -o.Covariates[i];
                }
            }

            return edge;
        }

        return (Edge(o.Category - 1), Edge(o.Category));
    }

    private static Vector<double>[] Edges(OrderedObservation o, int parameters, int covariates)
    {
        (Vector<double> lower, Vector<double> upper) = EdgePair(o, parameters, covariates);
        return [lower, upper];
    }

    private static double Density(double z) => double.IsInfinity(z) ? 0 : StandardNormal.Density(z);

    private static double Bend(double z) => double.IsInfinity(z) ? 0 : z * StandardNormal.Density(z);
}
