using Shimwright.Domain.Engines;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Sections;

namespace Shimwright.Pages.Engines;

/// <summary>A kind of valve train in the words of the bench.</summary>
/// <param name="Name">Its name in a card.</param>
/// <param name="Adjuster">The kind.</param>
/// <param name="Title">What a person taps.</param>
/// <param name="Hint">What sets it apart from the others.</param>
public sealed record ValveTrainWords(string Name, Adjuster Adjuster, string Title, string Hint)
{
    public static IReadOnlyList<ValveTrainWords> All { get; } =
    [
        new("shim-under-bucket", Adjuster.ShimUnderBucket, "Shim under bucket", "Small shim between bucket and valve stem. Camshaft comes out."),
        new("shim-over-bucket", Adjuster.ShimOverBucket, "Shim over bucket", "Large shim on top of the bucket. Camshaft stays in."),
        new("graded-bucket", Adjuster.GradedBucket, "Graded bucket", "Bucket sold in thicknesses, no shim. Camshaft comes out."),
        new("finger-follower", Adjuster.FingerFollower, "Shim under finger", "Shim on the valve stem under a finger follower."),
        new("screw", Adjuster.Screw, "Screw and lock nut", "Rocker with an adjusting screw."),
    ];

    public static ValveTrainWords Of(Adjuster adjuster) => All.First(t => t.Adjuster == adjuster);

    public static ValveTrainWords? Named(string? name) => All.FirstOrDefault(t => t.Name == name);

    /// <summary>Whether a finger or rocker is between cam and valve.</summary>
    public bool HasLever => Domain.Engines.Valvetrain.HasLever(Adjuster);

    /// <summary>Whether camshafts come out to reach the adjusters.</summary>
    public bool LiftsCamshafts => WorkOrder.LiftsCamshafts(Adjuster);

    /// <summary>The ends of the head at which its front may be.</summary>
    internal static CardChoices Fronts { get; } = new("f-front", [("none", "Not said"), ("first", "At cylinder 1"), ("last", "At the last cylinder")], "none");

    /// <summary>The name of an end among the choices.</summary>
    internal static string NameOf(HeadEnd? front) => front switch { HeadEnd.First => "first", HeadEnd.Last => "last", _ => "none" };
}
