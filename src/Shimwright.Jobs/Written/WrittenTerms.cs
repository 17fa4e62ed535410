using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Written;

/// <summary>What work and shims cost, and for how long the clearances should stay in band.</summary>
/// <param name="Redo">Another round apart from lifting and swapping, minutes.</param>
/// <param name="Swap">One valve's change, minutes.</param>
/// <param name="MinutesPerCurrency">Minutes that one unit of currency is worth.</param>
/// <param name="Horizon">How long the clearances should stay in band, on the engine's clock.</param>
/// <param name="Access">Minutes to lift each access group.</param>
/// <param name="Disturb">What changing a valve costs more where it was in band already, minutes.</param>
public sealed record WrittenCosts(
    [property: JsonConverter(typeof(MinutesIfAny))] double? Redo = null,
    [property: JsonConverter(typeof(MinutesIfAny))] double? Swap = null,
    double? MinutesPerCurrency = null,
    double? Horizon = null,
    [property: JsonConverter(typeof(MinutesInAMap))] IReadOnlyDictionary<string, double>? Access = null,
    [property: JsonConverter(typeof(MinutesIfAny))] double? Disturb = null);

/// <summary>The bench's own constants, the same for the bench and for each of its jobs.</summary>
/// <param name="Feel">How the person's fingers read a blade.</param>
/// <param name="Blade">Standard uncertainty of one blade's thickness, mm.</param>
/// <param name="Seating">How well a shim seats, standard deviation, mm.</param>
/// <param name="Instruments">Uncertainties of thicknesses.</param>
/// <param name="KeepFloor">The least chance of being in band with which a valve may be left alone.</param>
/// <param name="FitFloor">The least chance of landing in band with which a thickness may be fitted.</param>
/// <param name="Risk">The risk of a valve outside its band at which the next check is due.</param>
/// <param name="ServiceLevel">How often the drawer should have the size that is wanted.</param>
/// <param name="PassFloor">The least chance of being in band with which a valve passes its re-check.</param>
/// <param name="Minutes">What each kind of action takes.</param>
public sealed record WrittenSettings(
    WrittenFeel? Feel = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Blade = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Seating = null,
    WrittenInstruments? Instruments = null,
    double? KeepFloor = null,
    double? FitFloor = null,
    double? Risk = null,
    double? ServiceLevel = null,
    double? PassFloor = null,
    WrittenMinutes? Minutes = null);

/// <summary>What each kind of action takes, minutes.</summary>
/// <param name="Blade">One blade at one valve.</param>
/// <param name="Stack">A stack of two blades.</param>
/// <param name="Bucket">Turning a bucket by hand.</param>
/// <param name="Micrometer">Measuring one shim.</param>
/// <param name="Depth">A depth, apart from lifting the camshaft.</param>
/// <param name="DryFit">A dry fit of one access group.</param>
public sealed record WrittenMinutes(
    [property: JsonConverter(typeof(MinutesIfAny))] double? Blade = null,
    [property: JsonConverter(typeof(MinutesIfAny))] double? Stack = null,
    [property: JsonConverter(typeof(MinutesIfAny))] double? Bucket = null,
    [property: JsonConverter(typeof(MinutesIfAny))] double? Micrometer = null,
    [property: JsonConverter(typeof(MinutesIfAny))] double? Depth = null,
    [property: JsonConverter(typeof(MinutesIfAny))] double? DryFit = null);

/// <summary>How a person's fingers read a blade: plays in mm, and a share.</summary>
/// <param name="Firm">Play at which a blade just enters.</param>
/// <param name="Light">Play at which heavy drag turns light.</param>
/// <param name="Loose">Play at which drag ends.</param>
/// <param name="Spread">Standard deviation of the feel.</param>
/// <param name="Slip">Share of trials whose feel says nothing.</param>
/// <param name="Doubt">Standard deviation of the offset that the plays share in one check.</param>
public sealed record WrittenFeel(
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Firm = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Light = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Loose = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Spread = null,
    double? Slip = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Doubt = null);

/// <summary>Uncertainties of thicknesses by how they were found.</summary>
/// <param name="Marked">Of a mark.</param>
/// <param name="Calliper">Of a calliper.</param>
/// <param name="Micrometer">Of a micrometer.</param>
public sealed record WrittenInstruments(WrittenInstrument? Marked = null, WrittenInstrument? Calliper = null, WrittenInstrument? Micrometer = null);

/// <summary>Uncertainty of a thickness, mm.</summary>
/// <param name="Repeat">Standard uncertainty that is new at every thickness.</param>
/// <param name="Shared">Standard uncertainty that all its thicknesses share.</param>
public sealed record WrittenInstrument(
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Repeat = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Shared = null);
