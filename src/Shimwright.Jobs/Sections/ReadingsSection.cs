using Shimwright.Domain.Depth;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The readings of a check, gathered by valve; and which valves were named, rightly or wrongly read.</summary>
internal sealed record ReadingsSection(
    IReadOnlyDictionary<string, ValveReadings> ByValve, IReadOnlySet<string> Named, bool IsGiven, IReadOnlyList<DepthBudget> Depths)
{
    /// <summary>How far from the middle of its band a direct value, and above it a blade, may lie, mm.</summary>
    private const double Reach = LossPrior.StrayReach;

    private const double Slack = 1e-9;
    private const int MostReadings = 5000;
    /// <summary>How many trials one reading may have.</summary>
    public const int MostTrials = 500;

    private static readonly NumberMember Uncertainty = new(
        "u", new(DirectValue.LeastUncertainty, DirectValue.GreatestUncertainty, Measure.Length), "Standard uncertainty of the value, mm.", DirectValue.UsualUncertainty);

    private static readonly Dictionary<string, Feel> Feels = new(StringComparer.Ordinal)
    {
        ["no"] = Feel.No,
        ["firm"] = Feel.Firm,
        ["light"] = Feel.Light,
        ["loose"] = Feel.Loose,
    };

    /// <summary>Reads them, at a temperature in degrees C; depths only where a camshaft may be lifted.</summary>
    public static ReadingsSection Read(ObjectMembers check, EngineSection engine, double? temperature, bool required, bool withDepths = true)
    {
        HashSet<string> named = new(StringComparer.Ordinal);
        IReadOnlyList<CamshaftSection>? camshafts = withDepths ? CamshaftSection.Read(check, engine) : null;
        IReadOnlyList<Reading> readings = check.List(
            "readings", o => ReadOne(o, engine, camshafts, temperature, named), (0, MostReadings), $"What was felt or measured; several readings of one valve combine, the newest {Limits.MostReadingsCounted} of each kind.", required);
        Dictionary<string, ValveReadings> byValve = readings.GroupBy(r => r.Valve, r => r.Readings, StringComparer.Ordinal)
            .ToDictionary(of => of.Key, of => Together([.. of]), StringComparer.Ordinal);
        return new(byValve, named, check.Has("readings"), [.. readings.Select(r => r.Depth).OfType<DepthBudget>()]);
    }

    /// <summary>The readings of each valve that count, in the engine's order.</summary>
    public IEnumerable<ValveReadings> InOrder(Engine engine) => engine.Valves.Select(v => AllAt(v.Id).Newest(Limits.MostReadingsCounted));

    /// <summary>Everything that was read at a valve.</summary>
    public ValveReadings AllAt(string valve) => ByValve.GetValueOrDefault(valve, ValveReadings.None);

    private static ValveReadings Together(ValveReadings[] readings) => readings.Length == 1
        ? readings[0]
        : new(readings.SelectMany(r => r.Trials), readings.SelectMany(r => r.Values), readings.SelectMany(r => r.BucketTurns));

    private static Reading? ReadOne(
        ObjectMembers o, EngineSection engine, IReadOnlyList<CamshaftSection>? camshafts, double? temperature, HashSet<string> named)
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
        double u = o.Number(Uncertainty);
        bool? turns = o.Flag("bucketTurns", "Whether the bucket turned by hand on the heel of its cam.");

        DepthBudget? depth = camshafts is null ? null : DepthSection.Read(o, engine, camshafts, valve?.Id);
        NoteWhatIsMissing(o);
        double shift = engine.ShiftAt(temperature, valve?.Side);
        List<DirectValue> values = [];
        if (value is { } x && (band is null || IsInReach(o, "value", x, shift, band)))
        {
            values.Add(new DirectValue(x, u));
        }

        if (depth is not null && band is not null && IsInReach(o, "depth", depth.Budget.Value, shift, band))
        {
            values.Add(DepthReading.ToDirectValue(depth.Budget));
        }

        return valve?.Id is null ? null : new(valve.Id, new ValveReadings(trials, values, turns is { } t ? [t] : []), depth);
    }

    private static void NoteWhatIsMissing(ObjectMembers o)
    {
        if (o.Has("u") && !o.Has("value"))
        {
            o.Problem("u", "found an uncertainty without a value", "u belongs beside value");
        }

        bool hasNumber = o.Has("value") || o.Has("depth") || o.Has("bucketTurns");
        if (!o.Has("trials") && !hasNumber)
        {
            o.Problem("", "nothing was read", "a reading has trials, a value, a depth or bucketTurns");
        }
        else if (o.IsEmptyList("trials") && !hasNumber)
        {
            o.Problem("trials", "found no trial", "a reading without a value, a depth or bucketTurns has at least one trial");
        }
    }

    /// <summary>Whether a value can belong to the valve, as it was read and brought to 20 degrees C.</summary>
    private static bool IsInReach(ObjectMembers o, string member, double value, double shift, ClearanceBand band)
    {
        string allowed = $"allowed is within {NumberRule.Text(Reach)} mm of the middle of the band, {NumberRule.Text(band.Middle)}";
        string found = member == "value" ? $"found {NumberRule.Text(value)}" : $"found a clearance of {NumberRule.Text(Math.Round(value, 6))}";
        if (Math.Abs(value - band.Middle) > Reach + Slack)
        {
            o.Problem(member, found, allowed + Hundredths(value, band));
            return false;
        }

        if (Math.Abs(value - shift - band.Middle) > Reach + Slack)
        {
            o.Problem(member, $"{found}, which is {NumberRule.Text(value - shift)} at 20 degrees C", allowed + "; see temperatureC and kappaMmPerC");
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
            o.Problem("blade", $"found {NumberRule.Text(b)}", $"allowed is up to {NumberRule.Text(Reach)} mm above the middle of the band, {NumberRule.Text(band.Middle)}{Hundredths(b, band)}");
            return null;
        }

        return blade is { } thickness && feel is { } felt ? new BladeTrial(thickness, felt, leaves ?? 1) : null;
    }

    private static string Hundredths(double found, ClearanceBand band) =>
        Math.Abs((found / 100) - band.Middle) <= Reach ? NumberRule.Hundredths(found) : "";

    private sealed record Reading(string Valve, ValveReadings Readings, DepthBudget? Depth);
}
