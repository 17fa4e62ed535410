using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Written;

/// <summary>A thickness and how it was found.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
public sealed record WrittenThickness([property: JsonConverter(typeof(Millimetres))] double Thickness, string By);

/// <summary>The thickness found at a valve.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
public sealed record WrittenFitted(string Valve, [property: JsonConverter(typeof(Millimetres))] double Thickness, string By);

/// <summary>What was done at a valve: a thickness for another, or turns of a screw.</summary>
/// <param name="Valve">The valve's id.</param>
/// <param name="From">The thickness that came out.</param>
/// <param name="To">The thickness that went in.</param>
/// <param name="Turns">Turns of the screw, positive for more clearance.</param>
public sealed record WrittenChange(string Valve, WrittenThickness? From = null, WrittenThickness? To = null, double? Turns = null);

/// <summary>Drawer and shop.</summary>
/// <param name="Drawer">The shims in the drawer.</param>
/// <param name="Buy">Sizes that can be bought.</param>
public sealed record WrittenStock(
    IReadOnlyList<WrittenShims>? Drawer = null, [property: JsonConverter(typeof(OneOrManySizes))] IReadOnlyList<WrittenSizes>? Buy = null);

/// <summary>Shims of one thickness in the drawer.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
/// <param name="Count">How many there are.</param>
/// <param name="Marked">What is marked on shims that were measured, mm.</param>
public sealed record WrittenShims(
    [property: JsonConverter(typeof(Millimetres))] double Thickness, string By, [property: JsonConverter(typeof(WholeIfAny))] int? Count = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Marked = null);

/// <summary>Sizes that can be bought, mm.</summary>
/// <param name="From">First size.</param>
/// <param name="To">Last size.</param>
/// <param name="Step">Distance of the sizes.</param>
/// <param name="Price">Price of one, in the bench's currency.</param>
public sealed record WrittenSizes(
    [property: JsonConverter(typeof(Millimetres))] double From,
    [property: JsonConverter(typeof(Millimetres))] double To,
    [property: JsonConverter(typeof(Millimetres))] double Step,
    double? Price = null);
