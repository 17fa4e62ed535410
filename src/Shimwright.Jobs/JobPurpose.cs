namespace Shimwright.Jobs;

/// <summary>What a job file is read for.</summary>
public enum JobPurpose
{
    /// <summary>To estimate clearances.</summary>
    Estimate,

    /// <summary>To choose shims.</summary>
    Plan,

    /// <summary>To judge a re-check.</summary>
    Verdict,

    /// <summary>To choose shims again after a re-check.</summary>
    SecondPlan,

    /// <summary>To look at it as far as it has come: only what stands there must be right.</summary>
    Draft,

    /// <summary>To say what is worth doing next.</summary>
    Next,

    /// <summary>The same after a re-check.</summary>
    SecondNext,

    /// <summary>To find where the crank stops.</summary>
    Stops,

    /// <summary>To say when to look again.</summary>
    Forecast,
}
