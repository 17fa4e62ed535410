using Shimwright.Domain.Engines;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The thicknesses found at the valves; and which valves were named, rightly or wrongly read.</summary>
internal sealed record FittedSection(IReadOnlyDictionary<string, Thickness> ByValve, IReadOnlySet<string> Named)
{
    public static FittedSection Read(ObjectMembers check, EngineSection engine, InstrumentSet instruments)
    {
        HashSet<string> named = new(StringComparer.Ordinal);
        Dictionary<string, Thickness> byValve = new(StringComparer.Ordinal);
        check.List<object>(
            "fitted",
            o =>
            {
                ValveSection? valve = ValveName.Read(o, engine, out string? id);
                Thickness? thickness = ThicknessSection.Read(o, instruments);
                if (engine.Adjuster == Adjuster.Screw)
                {
                    o.Problem("", "found a thickness", "an engine with screws has none");
                }

                if (id is not null && !named.Add(id))
                {
                    o.Problem("valve", $"\"{id}\" has a thickness already", "each valve once");
                }
                else if (valve is not null && thickness is not null)
                {
                    byValve.Add(id!, thickness);
                }

                return null;
            },
            (0, Engine.MostValves),
            "The thickness found at each valve.");
        return new(byValve, named);
    }

    /// <summary>The thicknesses that are in after some changes.</summary>
    public FittedSection After(ChangedSection changed)
    {
        Dictionary<string, Thickness> byValve = new(ByValve, StringComparer.Ordinal);
        foreach ((string valve, ChangedValve change) in changed.ByValve)
        {
            if (change.To is { } to)
            {
                byValve[valve] = to;
            }
        }

        return this with { ByValve = byValve };
    }
}
