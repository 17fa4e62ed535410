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
        + "The manual, local codes and licensed practice come before anything said here.";

    /// <summary>Before any hand goes near the engine.</summary>
    public const string Isolate = "Switch the ignition off and isolate it, disconnect the battery, turn the fuel off, and hold the machine so that it cannot roll.";

    /// <summary>How the crank is turned.</summary>
    public const string TurnByHand =
        "Turn the crank by hand, only by the bolt the manual names and only in running direction. If you overshoot, go back 30 degrees and approach again, if the manual allows it.";

    /// <summary>Beside every single instruction to turn.</summary>
    public const string WhileTurning = "Caution: turn by hand only, fingers and tools clear of cams, chain and gears. Stop if it turns hard.";

    /// <summary>Before the engine is open.</summary>
    public const string NothingFallsIn = "Keep everything out of the engine: put a rag over the chain tunnel and close the plug holes.";

    /// <summary>Before a blade goes in.</summary>
    public static IReadOnlyList<string> BeforeReading { get; } =
    [
        "Let the engine get cold: stand it overnight if you can. Do not trust readings on a warm engine.",
        Isolate,
        TurnByHand,
        "Bring each cylinder to TDC on compression, or to where the valve is on the heel of its cam, before a blade goes in. " + WhileTurning,
        NothingFallsIn,
    ];

    private const string ShimSticks = "A shim may stick to the inside of its bucket by its oil: look there before you move the bucket, so that none falls into the engine.";

    private static readonly string[] LiftCamshaft =
    [
        "Turn the crank to the timing position that the manual names, before the first cap is loosened. " + WhileTurning,
        "Note the timing marks, and wind in or take out the tensioner before any cap is touched.",
        "Loosen the caps in steps, evenly, in the manual's order, the camshaft kept level; caps are numbered and stay in their places.",
        "Tie the chain up and do not turn the crank while a camshaft is out.",
    ];

    private static readonly string[] RefitCamshaft =
    [
        "Refit the camshaft on its marks, caps down evenly in two or three passes. Remove the locking pins from split gears, and release the tensioner last.",
    ];

    private static readonly string[] After =
    [
        "Rotate the engine twice by hand before re-checking. If it stops hard, the timing is wrong: do not force it, and never use the starter to find out. " + WhileTurning,
        "Look at the timing marks again, then feel every clearance again and ask for the verdict before closing.",
        "Ventilate before the engine runs indoors; blades have sharp edges.",
    ];

    /// <summary>What to heed at a dry fit.</summary>
    public static IReadOnlyList<string> DryFit { get; } =
    [
        "Dry fit: lay the camshaft back heel down, and snug the caps by hand, evenly, in steps.",
        "Never turn the engine during a dry fit. Leave the chain as the manual allows.",
    ];

    /// <summary>The steps for a kind of valve train, in order.</summary>
    /// <param name="adjuster">How the clearances are adjusted.</param>
    /// <param name="lifts">Whether anything has to be lifted to reach the adjusters.</param>
    /// <returns>One sentence or two a step.</returns>
    public static IReadOnlyList<string> StepsFor(Adjuster adjuster, bool lifts = true) =>
        [.. BeforeReading, .. Middle(adjuster).Where(s => lifts || !(LiftCamshaft.Contains(s) || RefitCamshaft.Contains(s))), .. After];

    /// <summary>Whether the camshafts come out to reach the adjusters of a kind.</summary>
    /// <param name="adjuster">How the clearances are adjusted.</param>
    /// <returns>Whether they do.</returns>
    public static bool LiftsCamshafts(Adjuster adjuster) => adjuster is not (Adjuster.ShimOverBucket or Adjuster.Screw);

    /// <summary>What to heed where the plan leaves everything alone.</summary>
    public static IReadOnlyList<string> NothingToDo { get; } =
    [
        "Nothing is lifted or changed. Write the clearances down: the next check is judged against them.",
        "Turn the engine over by hand once more before the starter is used, and see that no rag or blade was left inside. " + WhileTurning,
    ];

    /// <summary>What to heed where the plan leaves everything alone because nothing at hand puts a stranded valve right.</summary>
    public static IReadOnlyList<string> StaysOpen { get; } =
    [
        "Leave the engine open and the starter alone: nothing at hand puts the stranded valve right.",
        "Write the clearances down, and keep the openings covered until the part is there or valve and seat were looked at.",
    ];

    /// <summary>What to heed where a plan changes nothing.</summary>
    /// <param name="hasStranded">Whether a valve is stranded.</param>
    /// <returns>One sentence or two a step.</returns>
    public static IReadOnlyList<string> WhereNothingIsChanged(bool hasStranded) => hasStranded ? StaysOpen : NothingToDo;

    private static IEnumerable<string> Middle(Adjuster adjuster) => adjuster switch
    {
        Adjuster.ShimUnderBucket =>
        [
            .. LiftCamshaft,
            "Lift one bucket at a time; keep buckets and shims in order, each beside the name of its valve.",
            ShimSticks,
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
            "Never turn the engine with a shim out: the cam strikes the bare bucket and ruins both.",
            "Fit the new one marking down and see that it sits fully in its recess: a shim that is not can be thrown at speed.",
        ],
        Adjuster.FingerFollower =>
        [
            .. LiftCamshaft,
            "Swing the finger aside or take it out with its place noted; keep shims in order, each beside the name of its valve.",
            "A shim may stick to the finger by its oil: look at the finger before you move it, and cover the hole below.",
            "Measure each shim clean and seat it fully on the stem before the finger comes back.",
            .. RefitCamshaft,
        ],
        _ =>
        [
            "Loosen the lock nut, turn the screw by the turns given, and feel with the blade that the plan names for the target gap.",
            "Hold the screw while the nut is tightened, then feel again: the nut moves the setting. An over-tight nut bends the stem.",
        ],
    };
}
