using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>What was done at the valves; and which valves were named, rightly or wrongly read.</summary>
internal sealed record ChangedSection(IReadOnlyDictionary<string, ChangedValve> ByValve, IReadOnlySet<string> Named)
{
    /// <summary>More turns than any adjusting screw has.</summary>
    private const double MostTurns = 50;

    public static ChangedSection Read(ObjectMembers parent, EngineSection engine, InstrumentSet instruments)
    {
        HashSet<string> named = new(StringComparer.Ordinal);
        Dictionary<string, ChangedValve> byValve = new(StringComparer.Ordinal);
        parent.List<object>(
            "changed",
            o =>
            {
                _ = ValveName.Read(o, engine, out string? id);
                ChangedValve? change = ReadOne(o, engine, instruments);
                if (id is not null && !named.Add(id))
                {
                    o.Problem("valve", $"\"{id}\" was changed already", "each valve once");
                }
                else if (id is not null && change is not null)
                {
                    byValve.Add(id, change);
                }

                return null;
            },
            (0, Engine.MostValves),
            "What was done at the valves.");
        return new(byValve, named);
    }

    /// <summary>Nothing was done.</summary>
    public static ChangedSection None { get; } = new(new Dictionary<string, ChangedValve>(), new HashSet<string>());

    /// <summary>Some changes.</summary>
    public static ChangedSection Of(IReadOnlyDictionary<string, ChangedValve> byValve) => new(byValve, byValve.Keys.ToHashSet(StringComparer.Ordinal));

    /// <summary>Those at some valves.</summary>
    public ChangedSection Only(IReadOnlySet<string> valves) =>
        Of(ByValve.Where(c => valves.Contains(c.Key)).ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal));

    /// <summary>The changes with each valve's place in the engine.</summary>
    public IEnumerable<Adjustment> InOrder(Engine engine) => engine.Valves.Index()
        .Where(v => ByValve.ContainsKey(v.Item.Id))
        .Select(v => ByValve[v.Item.Id].At(v.Index));

    /// <summary>The same without valves that were only seated anew.</summary>
    public IEnumerable<Adjustment> Made(Engine engine) => InOrder(engine).Where(c => !c.IsSeatedAnew);

    private static ChangedValve? ReadOne(ObjectMembers o, EngineSection engine, InstrumentSet instruments)
    {
        bool isScrew = engine.Adjuster == Adjuster.Screw;
        bool isShim = engine.Adjuster is not null && !isScrew;
        Thickness? from = o.Object("from", t => ThicknessSection.Read(t, instruments), "The thickness that came out.", isShim);
        Thickness? to = o.Object("to", t => ThicknessSection.Read(t, instruments), "The thickness that went in.", isShim);
        double? turns = o.Number("turns", new(-MostTurns, MostTurns), "Turns of the screw, positive for more clearance.", isScrew);
        if (isScrew && (o.Has("from") || o.Has("to")))
        {
            o.Problem("", "found a thickness", "an engine with screws has none; say turns");
        }

        if (isShim && o.Has("turns"))
        {
            o.Problem("turns", "found turns", "only an engine with screws has them; say from and to");
        }

        return isScrew
            ? turns is { } t ? new ChangedValve(null, null, t) : null
            : from is not null && to is not null ? new ChangedValve(from, to, 0) : null;
    }
}

/// <summary>One change as written.</summary>
internal sealed record ChangedValve(Thickness? From, Thickness? To, double Turns, bool IsSeatedAnew = false)
{
    /// <summary>Nothing was changed, and the camshaft was laid down once more.</summary>
    public static ChangedValve SeatedAnew { get; } = new(null, null, 0, true);

    /// <summary>The change at the valve with this place in the engine.</summary>
    public Adjustment At(int valve) =>
        IsSeatedAnew ? Adjustment.SeatedAnew(valve) : From is not null && To is not null ? Adjustment.Fitted(valve, From, To) : Adjustment.Turned(valve, Turns);
}
