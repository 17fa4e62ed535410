namespace Shimwright.Study;

/// <summary>How one job went.</summary>
internal sealed record Outcome
{
    /// <summary>Every valve was truly in band at the first re-check.</summary>
    public required bool RightFirst { get; init; }

    /// <summary>The mechanic took the first re-check for passed.</summary>
    public required bool PassedFirst { get; init; }

    /// <summary>Before the work, every clearance lay where the blades can feel it.</summary>
    public required bool IsFelt { get; init; }

    /// <summary>It was right and taken for right in the end, after 6 rounds at most.</summary>
    public required bool IsFinished { get; init; }

    /// <summary>Rounds until every valve was truly in band, 6 at most.</summary>
    public required int RoundsUntilRight { get; init; }

    /// <summary>How often it was handed over while a valve was truly out.</summary>
    public required int Returns { get; init; }

    /// <summary>The bill of the first round.</summary>
    public required double FirstMinutes { get; init; }

    /// <summary>The whole bill.</summary>
    public required double Minutes { get; init; }

    /// <summary>Shims swapped.</summary>
    public required int Swapped { get; init; }

    /// <summary>Shims bought.</summary>
    public required int Bought { get; init; }

    /// <summary>The chance that the first plan promised; null without a plan, or where it left a valve stranded.</summary>
    public required double? Promised { get; init; }
}
