using System.Text.Json.Serialization;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Facts;

/// <summary>What the valves under one lifted camshaft have in common; it takes the place of what was said of that camshaft before.</summary>
/// <param name="Camshaft">The camshaft, by name.</param>
public abstract record CamshaftFact(string Camshaft) : JobFact
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => $"camshaft/{Camshaft}";

    /// <inheritdoc/>
    [JsonIgnore]
    public override bool BearsOnThePlan => true;
}

/// <summary>A lifted camshaft was measured; mm.</summary>
/// <param name="Camshaft">The camshaft, by name.</param>
/// <param name="Saddle">Depth of the bearing saddle's lowest point below the parting face.</param>
/// <param name="Journal">Diameter of the journal in that saddle.</param>
/// <param name="BaseCircle">Diameter of the cams' base circle.</param>
/// <param name="Play">How far the camshaft stands off its saddle where the clearance counts; null where nobody knows.</param>
public sealed record CamshaftMeasured(string Camshaft, MeasuredPart Saddle, MeasuredPart Journal, MeasuredPart BaseCircle, MeasuredPart? Play = null)
    : CamshaftFact(Camshaft);

/// <summary>Depths under a lifted camshaft are taken against a valve whose clearance was known before; mm.</summary>
/// <param name="Camshaft">The camshaft, by name.</param>
/// <param name="Valve">The known valve's id.</param>
/// <param name="Bucket">Its depth from the parting face to what the cam runs on.</param>
/// <param name="Clearance">Its clearance.</param>
/// <param name="Shim">Its shim, where that was out when the depth was taken.</param>
public sealed record CamshaftCompared(string Camshaft, string Valve, MeasuredPart Bucket, MeasuredPart Clearance, MeasuredPart? Shim = null)
    : CamshaftFact(Camshaft);
