using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The readings of a check, gathered by valve; and which valves were named, rightly or wrongly read.</summary>
internal sealed record ReadingsSection(IReadOnlyDictionary<string, ValveReadings> ByValve, IReadOnlySet<string> Named, bool IsGiven)
{
    /// <summary>How far from the middle of its band a direct value, and above it a blade, may lie, mm.</summary>
    private const double Reach = LossExpectation.StrayReach;

    private const double Slack = 1e-9;
    private const int MostReadings = 5000;
    /// <summary>How many trials one reading may have.</summary>
    public const int MostTrials = 500;

    private static readonly Dictionary<string, Feel> Feels = new(StringComparer.Ordinal)
    {
        ["no"] = Feel.No,
        ["firm"] = Feel.Firm,
        ["light"] = Feel.Light,
        ["loose"] = Feel.Loose,
    };

    /// <summary>Reads them; <paramref name="shift"/> is what the temperature adds to the gaps, mm.</summary>
    public static ReadingsSection Read(ObjectMembers check, EngineSection engine, double shift, bool required)
    {
        HashSet<string> named = new(StringComparer.Ordinal);
        IReadOnlyList<Reading> readings = check.List(
            "readings", o => ReadOne(o, engine, shift, named), (0, MostReadings), "What was felt or measured; several readings of one valve combine.", required);
        Dictionary<string, ValveReadings> byValve = new(StringComparer.Ordinal);
        foreach (Reading reading in readings)
        {
            byValve[reading.Valve] = byValve.GetValueOrDefault(reading.Valve, ValveReadings.None).With(reading.Readings);
        }

        return new(byValve, named, check.Has("readings"));
    }

    /// <summary>The readings of each valve in the engine's order.</summary>
    public IEnumerable<ValveReadings> InOrder(Engine engine) =>
        engine.Valves.Select(v => ByValve.GetValueOrDefault(v.Id, ValveReadings.None));

    private static Reading? ReadOne(ObjectMembers o, EngineSection engine, double shift, HashSet<string> named)
    {
        ValveSection? valve = ValveName.Read(o, engine, out string? id);
        if (id is not null)
        {
            named.Add(id);
        }

        ClearanceBand? band = valve?.Band;
        IReadOnlyList<BladeTrial> trials = o.List(
            "trials", t => ReadTrial(t, band), (0, MostTrials), "Blade trials, in the order in which they were made.");
        double? value = o.Number("value", new(-10, 10, Measure.Length), "A clearance measured as a number, mm; may be negative.");
        double? u = o.Number(
            "u", new(DirectValue.LeastUncertainty, DirectValue.GreatestUncertainty, Measure.Length), "Standard uncertainty of the value, mm.");
        bool? turns = o.Flag("bucketTurns", "Whether the bucket turned by hand on the heel of its cam.");

        if (value is { } x && band is not null && !IsInReach(o, x, shift, band))
        {
            value = null;
        }

        if (u is not null && !o.Has("value"))
        {
            o.Problem("u", "found an uncertainty without a value", "u belongs beside value");
        }

        if (!o.Has("trials") && !o.Has("value") && !o.Has("bucketTurns"))
        {
            o.Problem("", "nothing was read", "a reading has trials, a value or bucketTurns");
        }
        else if (o.IsEmptyList("trials") && !o.Has("value") && !o.Has("bucketTurns"))
        {
            o.Problem("trials", "found no trial", "a reading without a value or bucketTurns has at least one trial");
        }

        return valve?.Id is null
            ? null
            : new(valve.Id, new ValveReadings(
                trials,
                value is { } v ? [new DirectValue(v, u ?? DirectValue.UsualUncertainty)] : [],
                turns is { } t ? [t] : []));
    }

    /// <summary>Whether a value can belong to the valve, as it was read and brought to 20 degrees C.</summary>
    private static bool IsInReach(ObjectMembers o, double value, double shift, ClearanceBand band)
    {
        string allowed = $"allowed is within {NumberRule.Text(Reach)} mm of the middle of the band, {NumberRule.Text(band.Middle)}";
        if (Math.Abs(value - band.Middle) > Reach + Slack)
        {
            o.Problem("value", $"found {NumberRule.Text(value)}", allowed + Hundredths(value, band));
            return false;
        }

        if (Math.Abs(value - shift - band.Middle) > Reach + Slack)
        {
            o.Problem("value", $"found {NumberRule.Text(value)}, which is {NumberRule.Text(value - shift)} at 20 degrees C", allowed + "; see temperatureC and kappaMmPerC");
            return false;
        }

        return true;
    }

    private static BladeTrial? ReadTrial(ObjectMembers o, ClearanceBand? band)
    {
        var rule = new NumberRule(0, BladeTrial.Thickest, Measure.Length, LeastIsLeftOut: true);
        double? blade = o.Number("blade", rule, "Thickness of the blade or of the whole stack, mm.", required: true);
        Feel? feel = o.Choice("feel", Feels, "no: will not enter; firm: heavy drag; light: light, even drag; loose: no drag.", required: true);
        int? leaves = o.Whole("leaves", 1, BladeTrial.MostLeaves, "Leaves in the stack.");
        if (blade is { } b && band is not null && b > band.Middle + Reach + Slack)
        {
            o.Problem("blade", $"found {NumberRule.Text(b)}", $"allowed is up to {Reach} mm above the middle of the band, {NumberRule.Text(band.Middle)}{Hundredths(b, band)}");
            return null;
        }

        return blade is { } thickness && feel is { } felt ? new BladeTrial(thickness, felt, leaves ?? 1) : null;
    }

    private static string Hundredths(double found, ClearanceBand band) =>
        Math.Abs((found / 100) - band.Middle) <= Reach ? $"; {NumberRule.Text(found / 100)} meant?" : "";

    private sealed record Reading(string Valve, ValveReadings Readings);
}
