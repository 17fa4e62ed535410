using System.Text.Json.Nodes;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>Reads the part of a card's form that says how the crank turns.</summary>
internal sealed class CardLayoutReader(CardForm form, List<JobProblem> problems)
{
    private static readonly char[] Between = [' ', ';', '/', '\t'];

    /// <summary>The layout, or null where nothing of it was entered.</summary>
    public JsonObject? Read()
    {
        JsonObject layout = [];
        CardFormReader.Put(layout, "firingOrder", Order());
        CardFormReader.Put(layout, "firingAngles", Angles(form.Angles, "Angles"));
        CardFormReader.Put(layout, "marks", Angles(form.Marks, "Marks"));
        CardFormReader.Put(layout, "stopsAt", form.StopsAt is null or "" or "marks" ? null : JsonValue.Create(form.StopsAt));
        CardFormReader.Put(layout, "rampDeg", Number(form.Ramp, "Ramp"));
        CardFormReader.Put(layout, "intake", Events(("opensBtdc", form.IntakeOpens, "IntakeOpens"), ("closesAbdc", form.IntakeCloses, "IntakeCloses")));
        CardFormReader.Put(layout, "exhaust", Events(("opensBbdc", form.ExhaustOpens, "ExhaustOpens"), ("closesAtdc", form.ExhaustCloses, "ExhaustCloses")));
        CardFormReader.Put(layout, "turning", string.IsNullOrWhiteSpace(form.Turning) ? null : JsonValue.Create(form.Turning.Trim()));
        return layout.Count == 0 && string.IsNullOrWhiteSpace(form.Order) ? null : layout;
    }

    private JsonArray? Order()
    {
        if (string.IsNullOrWhiteSpace(form.Order))
        {
            return null;
        }

        if (FiringOrders.Read(form.Order) is { } order)
        {
            return new([.. order.Select(c => JsonValue.Create(c))]);
        }

        problems.Add(new("Order", $"found \"{form.Order}\"", "enter the cylinders in the order in which they fire, such as 1-3-4-2"));
        return null;
    }

    private JsonArray? Angles(string? text, string field)
    {
        double[] angles = [.. (text ?? "").Split(Between, StringSplitOptions.RemoveEmptyEntries)
            .Select(a => TypedNumber.Degrees(a, field).Note(problems)).OfType<double>()];
        return angles.Length == 0 ? null : new([.. angles.Select(a => JsonValue.Create(a))]);
    }

    private JsonObject? Events(params (string Member, string? Text, string Field)[] ends)
    {
        JsonObject events = [];
        foreach ((string member, string? text, string field) in ends)
        {
            CardFormReader.Put(events, member, Number(text, field));
        }

        return events.Count == 0 ? null : events;
    }

    private JsonValue? Number(string? text, string field) =>
        TypedNumber.Degrees(text, field, needed: false).Note(problems) is { } value ? JsonValue.Create(value) : null;
}
