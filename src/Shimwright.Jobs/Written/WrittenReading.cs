using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Written;

/// <summary>What was read at a valve: any of trials, a value, a depth and a bucket tried by hand.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="Trials">Blade trials, in the order in which they were made.</param>
/// <param name="Value">A clearance measured as a number, mm.</param>
/// <param name="U">Its standard uncertainty, mm.</param>
/// <param name="Depth">A clearance from a depth.</param>
/// <param name="BucketTurns">Whether the bucket turned by hand on the heel of its cam.</param>
public sealed record WrittenReading(
    string Valve,
    IReadOnlyList<WrittenTrial>? Trials = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Value = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? U = null,
    WrittenDepth? Depth = null,
    bool? BucketTurns = null);

/// <summary>A blade that was tried.</summary>
/// <param name="Blade">Thickness of the blade or of the whole stack, mm.</param>
/// <param name="Feel">no, firm, light or loose.</param>
/// <param name="Leaves">Leaves in the stack.</param>
public sealed record WrittenTrial([property: JsonConverter(typeof(Millimetres))] double Blade, string Feel, [property: JsonConverter(typeof(WholeIfAny))] int? Leaves = null);

/// <summary>A depth taken under a lifted camshaft.</summary>
/// <param name="Camshaft">The camshaft over the valve, by name.</param>
/// <param name="Bucket">Depth from the parting face to what the cam runs on.</param>
/// <param name="Shim">The shim, where it was out when the depth was taken.</param>
public sealed record WrittenDepth(string Camshaft, WrittenPart Bucket, WrittenPart? Shim = null);
