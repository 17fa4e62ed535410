using Shimwright.Bench.Engines;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Engines;

/// <summary>Puts a kept card into the fields of its form, in the bench's unit.</summary>
internal static class CardFormWriter
{
    public static CardForm Of(StoredEngine engine, LengthStyle lengths)
    {
        CardForm form = new()
        {
            Version = engine.Version,
            CardVersion = engine.CardVersion,
            Valves = [.. engine.Card.Engine.Valves.Select(v => new ValveFields
            {
                Was = v.Id,
                Id = v.Id,
                Cylinder = Times.Exact(v.Cylinder),
                Side = v.Side == ValveSide.Intake ? "intake" : "exhaust",
                Access = v.Access,
                Low = lengths.Field(v.Band.Low),
                High = lengths.Field(v.Band.High),
            })],
            Access = [.. engine.Card.Engine.AccessGroups.Select(g => new AccessFields
            {
                Name = g,
                Minutes = engine.Details.AccessMinutes.TryGetValue(g, out double minutes) ? Times.Exact(minutes) : "",
            })],
        };
        foreach (CardField field in CardForm.All)
        {
            form[field] = field.Value.Write(engine, lengths);
        }

        return form;
    }
}
