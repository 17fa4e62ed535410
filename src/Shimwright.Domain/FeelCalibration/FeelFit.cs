using Shimwright.Domain.Readings;

namespace Shimwright.Domain.FeelCalibration;

/// <summary>How a calibration ended.</summary>
public enum FeelStatus
{
    /// <summary>The fingers are fitted.</summary>
    Fitted,

    /// <summary>Fewer than 12 trials.</summary>
    TooFewTrials,

    /// <summary>One of the four feels was never felt.</summary>
    FeelMissing,

    /// <summary>The feels change over without any overlap that the blades' own spread does not explain: the spread runs to 0.</summary>
    Separated,

    /// <summary>The feel does not loosen as the gap grows, or the fit lies where no fingers are.</summary>
    NotFingers,
}

/// <summary>One of the four parameters as fitted; mm.</summary>
/// <param name="Name">firm, light, loose or spread.</param>
/// <param name="Value">The value at which the likelihood is greatest.</param>
/// <param name="StandardError">From the observed information.</param>
/// <param name="Low">Lower end of the 95 % interval by the profile of the likelihood.</param>
/// <param name="High">Its upper end.</param>
/// <param name="Usual">What the default profile has.</param>
public sealed record FeelParameter(string Name, double Value, double StandardError, double Low, double High, double Usual);

/// <summary>The fitted fingers against the default ones, by the ratio of their likelihoods.</summary>
/// <param name="Statistic">Twice the difference of the log-likelihoods.</param>
/// <param name="Chance">How often default fingers would give at least as great a one (chi-squared, four degrees of freedom).</param>
public sealed record FeelComparison(double Statistic, double Chance)
{
    /// <summary>Parameters that are compared.</summary>
    public const int Degrees = 4;

    /// <summary>The chance below which the fingers count as different.</summary>
    public const double Limit = 0.05;

    /// <summary>Whether these fingers differ from the default ones.</summary>
    public bool Differs => Chance < Limit;
}

/// <summary>A person's fingers, fitted to trials on gaps of known size.</summary>
/// <param name="Feel">The profile; its doubt is how far the three thresholds may be off together.</param>
/// <param name="Parameters">Its four parameters with their doubt.</param>
/// <param name="LogLikelihood">The greatest log-likelihood.</param>
/// <param name="AgainstDefault">The comparison with the default profile.</param>
public sealed record FeelFit(
    FeelProfile Feel, IReadOnlyList<FeelParameter> Parameters, double LogLikelihood, FeelComparison AgainstDefault);

/// <summary>What a calibration gave: a fit, or why there is none, and in both cases what to try next.</summary>
/// <param name="Status">How it ended.</param>
/// <param name="Fit">The fit; null unless fitted.</param>
/// <param name="Missing">Feels that were never felt.</param>
/// <param name="Next">The trials that would say most, best first.</param>
public sealed record FeelCalibrationResult(
    FeelStatus Status, FeelFit? Fit, IReadOnlyList<Feel> Missing, IReadOnlyList<NextFeelTrial> Next);
