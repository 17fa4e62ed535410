using Shimwright.Bench.Engines;
using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Sections;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Engines;

/// <summary>Puts a kept card into the fields of its form, in the bench's unit.</summary>
internal static class CardFormWriter
{
    private const double UsualRamp = 20;

    public static CardForm Of(StoredEngine engine, LengthStyle lengths)
    {
        Engine e = engine.Card.Engine;
        CardForm form = new()
        {
            Version = engine.Version,
            CardVersion = engine.CardVersion,
            Name = engine.Name,
            Valvetrain = ValveTrainWords.Of(e.Valvetrain.Adjuster).Name,
            Ratio = e.Valvetrain.Ratio == 1 ? "" : Times.Exact(e.Valvetrain.Ratio),
            Pitch = Length(e.Valvetrain.Pitch),
            Kappa = Length(e.ClearancePerDegree),
            Valves = [.. e.Valves.Select(v => new ValveFields
            {
                Was = v.Id,
                Id = v.Id,
                Cylinder = Times.Exact(v.Cylinder),
                Side = v.Side == ValveSide.Intake ? "intake" : "exhaust",
                Access = v.Access,
                Low = lengths.Field(v.Band.Low),
                High = lengths.Field(v.Band.High),
            })],
            Access = [.. e.AccessGroups.Select(g => new AccessFields
            {
                Name = g,
                Minutes = engine.Details.AccessMinutes.TryGetValue(g, out double minutes) ? Times.Exact(minutes) : "",
            })],
            ShimDiameter = Length(engine.Details.ShimDiameter),
            Thinnest = Length(engine.Details.ThinnestShim),
            Thickest = Length(engine.Details.ThickestShim),
            LimitsFrom = engine.Details.LimitsFrom,
            CardNotes = engine.Details.Notes,
            Notes = engine.Notes,
        };
        PutLayout(form, engine.Card.Layout);
        PutWear(form, engine.Card.Wear);
        return form;

        string Length(double? value) => value is { } mm ? lengths.Field(mm) : "";

        void PutWear(CardForm into, WearCard? wear)
        {
            into.Clock = wear is { CountsKilometres: true } ? "km" : "hours";
            into.Interval = wear is null ? "" : Times.Exact(wear.Interval);
            into.Loss = Length(wear?.LossPerInterval);
            into.Spread = Length(wear?.Spread);
        }
    }

    private static void PutLayout(CardForm form, LayoutCard? layout)
    {
        form.Order = layout is null ? "" : FiringOrders.Text(layout.FiringOrder);
        form.Angles = Angles(layout?.FiringAngles);
        form.Marks = Angles(layout?.Marks);
        form.StopsAt = layout is { StopsAnywhere: true } ? "anywhere" : "marks";
        form.Ramp = layout is null or { RampDegrees: UsualRamp } ? "" : Times.Exact(layout.RampDegrees);
        (form.IntakeOpens, form.IntakeCloses) = Events(layout?.Intake);
        (form.ExhaustOpens, form.ExhaustCloses) = Events(layout?.Exhaust);
        form.Turning = layout?.Turning ?? "";
    }

    private static string Angles(IReadOnlyList<double>? angles) => angles is null ? "" : string.Join(' ', angles.Select(Times.Exact));

    private static (string Opens, string Closes) Events(CamEvents? events) =>
        events is null ? ("", "") : (Times.Exact(events.Opens), Times.Exact(events.Closes));
}
