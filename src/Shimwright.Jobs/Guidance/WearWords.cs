namespace Shimwright.Jobs.Guidance;

/// <summary>What goes with every word about wear.</summary>
public static class WearWords
{
    /// <summary>How far a forecast and its signs may be trusted.</summary>
    public const string Limits =
        "This is evidence from clearances, not a diagnosis: a leak-down or compression test settles what a valve and its seat are like.";
}
