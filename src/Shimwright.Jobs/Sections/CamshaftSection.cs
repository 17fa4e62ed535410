using Shimwright.Domain.Depth;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Uncertainty;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>A lifted camshaft as far as it could be read: its own sizes, or a valve under it whose clearance is known.</summary>
internal sealed record CamshaftSection(string? Name, Camshaft? Sizes, KnownValve? Known)
{
    private const int MostCamshafts = 16;

    /// <summary>Depths and diameters that are taken, mm.</summary>
    private static readonly NumberRule Size = new(0, 300, Measure.Length, LeastIsLeftOut: true);

    private static readonly NumberRule Play = new(0, 0.5, Measure.Length);
    private static readonly NumberRule Clearance = new(-0.5, ClearanceBand.Highest, Measure.Length);

    public static IReadOnlyList<CamshaftSection> Read(ObjectMembers check, EngineSection engine)
    {
        HashSet<string> names = new(StringComparer.Ordinal);
        return check.List(
            "camshafts", o => ReadOne(o, engine, names), (0, MostCamshafts), "Lifted camshafts under which depths were taken; what is common to their valves is said here once.");
    }

    /// <summary>The depth to the bucket and, where it was out, the shim.</summary>
    public static ValveDepth? ReadDepth(ObjectMembers o, string of)
    {
        InputQuantity? bucket = QuantitySection.Read(
            o, "bucket", "bucket" + of, Size, "Depth from the parting face to what the cam runs on: the bucket, or the shim on it.", required: true);
        InputQuantity? shim = QuantitySection.Read(
            o, "shim", "shim" + of, ThicknessSection.Rule, "The shim, where it was out when the depth was taken.", required: false);
        return bucket is null || (shim is null && o.Has("shim")) ? null : new ValveDepth(bucket, shim);
    }

    private static CamshaftSection ReadOne(ObjectMembers o, EngineSection engine, HashSet<string> names)
    {
        string? name = o.Name("name", "What the camshaft is called.", required: true);
        InputQuantity? saddle = QuantitySection.Read(o, "saddle", "saddle", Size, "Depth of the bearing saddle's lowest point below the parting face.", required: false);
        InputQuantity? journal = QuantitySection.Read(o, "journal", "journal", Size, "Diameter of the journal in that saddle.", required: false);
        InputQuantity? baseCircle = QuantitySection.Read(o, "baseCircle", "base circle", Size, "Diameter of the cams' base circle.", required: false);
        InputQuantity? play = QuantitySection.Read(o, "play", "play", Play, "How far the camshaft stands off its saddle where the clearance counts.", required: false);
        KnownValve? known = o.Object("known", k => ReadKnown(k, engine), "A valve under it whose clearance was found with a blade before it was lifted.");
        if (name is not null && !names.Add(name))
        {
            o.Problem("name", $"\"{name}\" stands there already", "each camshaft needs a name of its own");
        }

        NoteEither(o);
        return new(name, saddle is not null && journal is not null && baseCircle is not null ? new Camshaft(saddle, journal, baseCircle, play) : null, known);
    }

    /// <summary>Its sizes or a known valve, never half of the one or both.</summary>
    private static void NoteEither(ObjectMembers o)
    {
        string[] sizes = ["saddle", "journal", "baseCircle"];
        if (o.Has("known") && sizes.Append("play").Where(o.Has).ToArray() is { Length: > 0 } surplus)
        {
            o.Problem("known", $"found it beside {string.Join(", ", surplus)}", "with a known valve these cancel: leave them out");
        }
        else if (!o.Has("known") && sizes.Where(s => !o.Has(s)).ToArray() is { Length: > 0 } missing)
        {
            o.Problem("", $"{string.Join(", ", missing)} missing", "a camshaft has saddle, journal and baseCircle, or a known valve");
        }
    }

    private static KnownValve? ReadKnown(ObjectMembers o, EngineSection engine)
    {
        ValveSection? valve = ValveName.Read(o, engine, out string? id);
        ValveDepth? depth = ReadDepth(o, id is null ? "" : $" of {id}");
        InputQuantity? clearance = QuantitySection.Read(o, "clearance", $"clearance of {id}", Clearance, "Its clearance.", required: true);
        return valve?.Id is { } known && depth is not null && clearance is not null ? new(known, depth, clearance) : null;
    }
}

/// <summary>A valve whose clearance is known, with its depth.</summary>
internal sealed record KnownValve(string Valve, ValveDepth Depth, InputQuantity Clearance);
