using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Written;

/// <summary>A check as it was written down.</summary>
/// <param name="Clock">The engine's clock, hours or km.</param>
/// <param name="TemperatureC">Engine temperature, °C.</param>
/// <param name="Readings">What was felt or measured; several readings of one valve combine.</param>
/// <param name="Blades">The person's blades, mm.</param>
/// <param name="Loss">What loss is expected where nothing is known of the engine's past.</param>
/// <param name="Camshafts">Lifted camshafts under which depths were taken.</param>
/// <param name="Fitted">The thickness found at each valve.</param>
/// <param name="Changed">What was done at the valves afterwards; of a past check or an earlier round only.</param>
public sealed record WrittenCheck(
    double Clock,
    [property: JsonConverter(typeof(DegreesIfAny))] double? TemperatureC,
    IReadOnlyList<WrittenReading> Readings,
    [property: JsonConverter(typeof(MillimetresInAList))] IReadOnlyList<double>? Blades = null,
    WrittenLoss? Loss = null,
    IReadOnlyList<WrittenCamshaft>? Camshafts = null,
    IReadOnlyList<WrittenFitted>? Fitted = null,
    IReadOnlyList<WrittenChange>? Changed = null);

/// <summary>What loss of clearance is expected, mm.</summary>
/// <param name="Shared">Scale of the loss that the valves share.</param>
/// <param name="Own">Mean of the loss that each valve has on its own.</param>
/// <param name="Cause">"head work" where seats were cut, valves ground or new parts fitted.</param>
/// <param name="Sides">The sides that were worked on; both where it is null.</param>
public sealed record WrittenLoss(
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Shared = null,
    [property: JsonConverter(typeof(MillimetresIfAny))] double? Own = null,
    string? Cause = null,
    IReadOnlyList<string>? Sides = null);

/// <summary>What was done after the check, and what was read then.</summary>
/// <param name="Changed">What was done at the valves.</param>
/// <param name="Readings">What was felt or measured afterwards.</param>
/// <param name="TemperatureC">Engine temperature, °C; that of the check where it is null.</param>
/// <param name="Camshafts">Lifted camshafts under which depths were taken.</param>
/// <param name="DryFits">Dry fits in between, in their order.</param>
public sealed record WrittenRecheck(
    IReadOnlyList<WrittenChange>? Changed,
    IReadOnlyList<WrittenReading>? Readings,
    [property: JsonConverter(typeof(DegreesIfAny))] double? TemperatureC = null,
    IReadOnlyList<WrittenCamshaft>? Camshafts = null,
    IReadOnlyList<WrittenDryFit>? DryFits = null);

/// <summary>A dry fit: the shims in, the camshaft laid down with its caps snug, felt, and lifted again.</summary>
/// <param name="Access">The access group.</param>
/// <param name="Readings">What was felt.</param>
/// <param name="Changed">What had been changed at its valves by then, from the check on; what the re-check says where it is null.</param>
public sealed record WrittenDryFit(
    string? Access, IReadOnlyList<WrittenReading>? Readings, IReadOnlyList<WrittenChange>? Changed = null);
