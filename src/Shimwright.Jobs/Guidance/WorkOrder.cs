using Shimwright.Domain.Engines;

namespace Shimwright.Jobs.Guidance;

/// <summary>
/// The order of work for each kind of valve train, and what must not be forgotten. Common practice of the trade,
/// as workshop and technical manuals give it; the maker's manual for the engine comes first.
/// </summary>
public static class WorkOrder
{
    /// <summary>The line under every plan.</summary>
    public const string Deference =
        "Torque figures, tightening sequence and limits come from the maker's manual for this engine. "
        + "It, local codes and licensed practice come before anything said here.";

    /// <summary>Before any hand goes near the engine.</summary>
    public const string Isolate = "Ignition off and isolated, battery off, fuel off, the machine held so that it cannot roll.";

    /// <summary>How the crank is turned.</summary>
    public const string TurnByHand = "Turn the crank only by the bolt the manual names and only in running direction; overshot, go back 30 degrees and come again.";

    /// <summary>Before the engine is open.</summary>
    public const string NothingFallsIn = "Nothing may fall in: a rag over the chain tunnel, plug holes closed.";

    /// <summary>Before a blade goes in.</summary>
    public static IReadOnlyList<string> BeforeReading { get; } =
    [
        "Engine cold: stand it overnight where you can. Half-warm clearances mean nothing.",
        Isolate,
        TurnByHand,
        "Bring each cylinder to TDC on compression, or to where the valve stands on the heel of its cam, before a blade goes in.",
        NothingFallsIn,
    ];

    private static readonly string[] LiftCamshaft =
    [
        "Note the timing marks, and wind in or take out the tensioner before any cap is touched.",
        "Loosen the caps in steps, evenly, in the manual's order, the camshaft kept level; caps are numbered and stay in their places.",
        "Tie the chain up and do not turn the crank while a camshaft is out.",
    ];

    private static readonly string[] RefitCamshaft =
    [
        "Refit the camshaft on its marks, caps down evenly in two or three passes; pins out of sprung gears, tensioner released last.",
    ];

    private static readonly string[] After =
    [
        "Rotate the engine twice by hand before re-checking. If it stops hard, the timing is wrong: do not force it, and never use the starter to find out.",
        "Look at the timing marks again, then feel every clearance again and ask for the verdict before closing.",
        "Ventilate before the engine runs indoors; blades have sharp edges.",
    ];

    /// <summary>The steps for a kind of valve train, in order.</summary>
    /// <param name="adjuster">How the clearances are adjusted.</param>
    /// <returns>One sentence or two a step.</returns>
    public static IReadOnlyList<string> StepsFor(Adjuster adjuster) =>
        [.. BeforeReading, .. Middle(adjuster), .. After];

    /// <summary>Whether the camshafts come out to reach the adjusters of a kind.</summary>
    /// <param name="adjuster">How the clearances are adjusted.</param>
    /// <returns>Whether they do.</returns>
    public static bool LiftsCamshafts(Adjuster adjuster) => adjuster is not (Adjuster.ShimOverBucket or Adjuster.Screw);

    /// <summary>What to heed where the plan leaves everything alone.</summary>
    public static IReadOnlyList<string> NothingToDo { get; } =
    [
        "Nothing is lifted or changed. Write the clearances down: the next check is judged against them.",
        "Turn the engine over by hand once more before the starter is used, and see that no rag or blade was left inside.",
    ];

    private static IEnumerable<string> Middle(Adjuster adjuster) => adjuster switch
    {
        Adjuster.ShimUnderBucket =>
        [
            .. LiftCamshaft,
            "Lift one bucket at a time; keep buckets and shims in order, each beside the name of its valve.",
            "Measure each shim clean. Fit it marking down, flat in its seat, one shim only, never stacked.",
            .. RefitCamshaft,
        ],
        Adjuster.GradedBucket =>
        [
            .. LiftCamshaft,
            "Lift one bucket at a time and keep the buckets in order; measure the crown of each clean.",
            "Oil the new bucket and see that it drops in its bore by its own weight.",
            .. RefitCamshaft,
        ],
        Adjuster.ShimOverBucket =>
        [
            "Hold the bucket down with the tool made for it and keep fingers out of the way of cam and spring.",
            "Ease the shim out; keep shims in order, each beside the name of its valve; measure each clean.",
            "Fit the new one marking down and see that it sits fully in its recess: a shim that is not can be thrown at speed.",
        ],
        Adjuster.FingerFollower =>
        [
            .. LiftCamshaft,
            "Swing the finger aside or take it out with its place noted; keep shims in order, each beside the name of its valve.",
            "Measure each shim clean and seat it fully on the stem before the finger comes back.",
            .. RefitCamshaft,
        ],
        _ =>
        [
            "Loosen the lock nut, turn the screw by the turns given, and feel with a blade of the gap that is expected then.",
            "Hold the screw while the nut is tightened, then feel again: the nut moves the setting. An over-tight nut bends the stem.",
        ],
    };
}
