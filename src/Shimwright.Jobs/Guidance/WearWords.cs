namespace Shimwright.Jobs.Guidance;

/// <summary>What goes with every word about wear.</summary>
public static class WearWords
{
    /// <summary>How far a forecast and its signs may be trusted.</summary>
    public const string Limits =
        "These figures come from clearances and are not a diagnosis. A leak-down or compression test settles the state of a valve and its seat.";
}
