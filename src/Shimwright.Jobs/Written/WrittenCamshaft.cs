using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Written;

/// <summary>A lifted camshaft: its own sizes, or a valve under it whose clearance is known.</summary>
/// <param name="Name">What the camshaft is called.</param>
/// <param name="Saddle">Depth of the bearing saddle's lowest point below the parting face.</param>
/// <param name="Journal">Diameter of the journal in that saddle.</param>
/// <param name="BaseCircle">Diameter of the cams' base circle.</param>
/// <param name="Play">How far the camshaft stands off its saddle where the clearance counts.</param>
/// <param name="Known">The valve of known clearance.</param>
public sealed record WrittenCamshaft(
    string Name, WrittenPart? Saddle = null, WrittenPart? Journal = null, WrittenPart? BaseCircle = null, WrittenPart? Play = null,
    WrittenKnownValve? Known = null);

/// <summary>A valve whose clearance was known before its camshaft was lifted.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="Bucket">Its depth from the parting face to what the cam runs on.</param>
/// <param name="Clearance">Its clearance.</param>
/// <param name="Shim">Its shim, where that was out when the depth was taken.</param>
public sealed record WrittenKnownValve(string Valve, WrittenPart Bucket, WrittenPart Clearance, WrittenPart? Shim = null);

/// <summary>A size with its standard uncertainty, mm.</summary>
/// <param name="Value">The size.</param>
/// <param name="U">Its standard uncertainty.</param>
/// <param name="Df">Degrees of freedom of the uncertainty, where it rests on a few readings.</param>
public sealed record WrittenPart(
    [property: JsonConverter(typeof(Millimetres))] double Value, [property: JsonConverter(typeof(Millimetres))] double U, double? Df = null);
