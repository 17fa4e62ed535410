namespace Shimwright.Domain.FeelCalibration;

/// <summary>How a fit ended.</summary>
public enum OrderedProbitStatus
{
    /// <summary>The likelihood has a maximum, and this is it.</summary>
    Fitted,

    /// <summary>A category was never observed; its thresholds cannot be told apart.</summary>
    CategoryMissing,

    /// <summary>The covariates divide categories without overlap, or depend on each other: the maximum lies at infinity or is not one point.</summary>
    Separated,
}

/// <summary>A parameter with its standard error.</summary>
/// <param name="Value">The value at which the likelihood is greatest.</param>
/// <param name="StandardError">From the observed information.</param>
public sealed record FittedParameter(double Value, double StandardError);

/// <summary>A fitted ordered probit: P(category ≤ j) = Φ(threshold j - Σ coefficient·covariate).</summary>
/// <param name="Status">How the fit ended; parameters are empty where it is not fitted.</param>
/// <param name="Coefficients">One a covariate.</param>
/// <param name="Thresholds">One fewer than there are categories, rising.</param>
/// <param name="LogLikelihood">The greatest log-likelihood; minus half the deviance.</param>
/// <param name="Steps">Steps of the climb.</param>
public sealed record OrderedProbitFit(
    OrderedProbitStatus Status, IReadOnlyList<FittedParameter> Coefficients, IReadOnlyList<FittedParameter> Thresholds,
    double LogLikelihood, int Steps)
{
    internal static OrderedProbitFit None(OrderedProbitStatus why, int steps = 0) => new(why, [], [], 0, steps);
}
