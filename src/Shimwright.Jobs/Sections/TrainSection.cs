using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The valve train as far as it could be read: how the gaps are adjusted, and what a shim or a turn is at the gap.</summary>
internal sealed record TrainSection(Adjuster? Adjuster, double Ratio, Lever? Lever, double? Pitch)
{
    private static readonly Dictionary<string, Adjuster> Adjusters = new(StringComparer.Ordinal)
    {
        ["shim-under-bucket"] = Domain.Engines.Adjuster.ShimUnderBucket,
        ["shim-over-bucket"] = Domain.Engines.Adjuster.ShimOverBucket,
        ["graded-bucket"] = Domain.Engines.Adjuster.GradedBucket,
        ["finger-follower"] = Domain.Engines.Adjuster.FingerFollower,
        ["screw"] = Domain.Engines.Adjuster.Screw,
    };

    private static readonly Dictionary<string, LeverEnd> GapEnds = new(StringComparer.Ordinal) { ["cam"] = LeverEnd.Cam, ["valve"] = LeverEnd.Valve };

    private static readonly Dictionary<string, LeverEnd> ScrewEnds = new(StringComparer.Ordinal) { ["valve"] = LeverEnd.Valve, ["push-rod"] = LeverEnd.Cam };

    private static readonly NumberMember RatioMember = new(
        "ratio", new(Valvetrain.LeastRatio, Valvetrain.GreatestRatio), "Clearance change at the gap per unit of shim or screw travel; 1 under a direct-acting cam. Where the lever is known, leverRatio says it better.", 1);

    /// <summary>The ratio where the card says none.</summary>
    public static double UsualRatio => RatioMember.Usual;

    /// <summary>A valve train of which nothing could be read.</summary>
    public static TrainSection None { get; } = new(null, RatioMember.Usual, null, null);

    public static TrainSection Read(ObjectMembers o)
    {
        Adjuster? adjuster = o.Choice("valvetrain", Adjusters, "How the clearances are adjusted.", required: true);
        double ratio = o.Number(RatioMember);
        double? lift = o.Number(
            "leverRatio", new(Lever.Least, Lever.Greatest), "Lift at the valve for each unit of lift at the cam, of a finger or rocker; instead of ratio.");
        LeverEnd? feltAt = o.Choice("feltAt", GapEnds, "The end of the finger or rocker at which the gap is felt; a finger's is felt at the cam unless said, a rocker's at the valve.");
        LeverEnd? screwAt = o.Choice("screwAt", ScrewEnds, "The end of the rocker at which the screw sits; at the valve unless said.");
        double? pitch = o.Number(
            "pitch", new(Valvetrain.LeastPitch, Valvetrain.GreatestPitch, Measure.Length), "Thread pitch of the adjusting screw, mm a turn; a screw needs it.");
        if (adjuster is { } known)
        {
            NotePitch(o, known);
            NoteLever(o, known);
        }

        return new(adjuster, ratio, adjuster is { } a && lift is { } r && Valvetrain.HasLever(a) ? LeverOf(a, r, feltAt, screwAt) : null, pitch);
    }

    /// <summary>The valve train; to be asked for only where nothing was wrong.</summary>
    public Valvetrain ToValvetrain() => Lever is null ? new(Adjuster!.Value, Ratio, Pitch) : new(Adjuster!.Value, Lever, Pitch);

    private static Lever LeverOf(Adjuster adjuster, double lift, LeverEnd? feltAt, LeverEnd? screwAt) =>
        adjuster == Domain.Engines.Adjuster.Screw
            ? new(lift, screwAt ?? LeverEnd.Valve, feltAt ?? LeverEnd.Valve)
            : new(lift, LeverEnd.Valve, feltAt ?? LeverEnd.Cam);

    private static void NotePitch(ObjectMembers o, Adjuster adjuster)
    {
        if (adjuster == Domain.Engines.Adjuster.Screw && !o.Has("pitch"))
        {
            o.Problem("pitch", "missing", "a screw needs its pitch, mm a turn");
        }
        else if (adjuster != Domain.Engines.Adjuster.Screw && o.Has("pitch"))
        {
            o.Problem("pitch", "found a pitch", "only the valvetrain \"screw\" has one");
        }
    }

    private static void NoteLever(ObjectMembers o, Adjuster adjuster)
    {
        if (o.Has("leverRatio") && o.Has("ratio"))
        {
            o.Problem("leverRatio", "found a ratio too", "one of the two: leverRatio with feltAt, or ratio");
        }
        else if (o.Has("leverRatio") && !Valvetrain.HasLever(adjuster))
        {
            o.Problem("leverRatio", "found a lever ratio", "only a finger-follower or a screw has a lever; a bucket has none");
        }

        if (o.Has("feltAt") && !o.Has("leverRatio"))
        {
            o.Problem("feltAt", "found without leverRatio", "feltAt belongs beside leverRatio; ratio is what a shim is at the gap already");
        }

        if (o.Has("screwAt") && !(o.Has("leverRatio") && adjuster == Domain.Engines.Adjuster.Screw))
        {
            o.Problem("screwAt", "found without the rocker of a screw", "screwAt belongs beside leverRatio, with the valvetrain \"screw\"");
        }
    }
}
