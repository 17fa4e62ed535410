using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>An automatic decompressor of an engine card.</summary>
/// <param name="Valves">The valves that it lifts, by name.</param>
/// <param name="Lifts">Which way the crank has to be turned for it to lift.</param>
public sealed record DecompressorCard(IReadOnlyList<string> Valves, DecompressorLift Lifts)
{
    private static readonly Dictionary<string, DecompressorLift> Ways = new(StringComparer.Ordinal)
    {
        ["forwards"] = DecompressorLift.Forwards,
        ["backwards"] = DecompressorLift.Backwards,
        ["both"] = DecompressorLift.Both,
    };

    /// <summary>Whether it lifts a valve.</summary>
    /// <param name="valve">The valve's name.</param>
    /// <returns>Whether it does.</returns>
    public bool WorksOn(string valve) => Valves.Contains(valve, StringComparer.Ordinal);

    internal static DecompressorCard? Read(ObjectMembers engine, IReadOnlyList<ValveSection> valves) =>
        engine.Object("decompressor", o => ReadOne(o, valves), "An automatic decompressor: its valves are read where it does not lift.");

    private static DecompressorCard? ReadOne(ObjectMembers o, IReadOnlyList<ValveSection> valves)
    {
        IReadOnlyList<string>? named = o.Names("valves", (1, Engine.MostValves), "The valves that it lifts.", required: true);
        DecompressorLift? lifts = o.Choice("liftsWhenTurned", Ways, "Which way the crank is turned, by hand, for it to lift.", required: true);
        foreach (string stranger in (named ?? []).Where(n => !valves.Any(v => v.Id == n)).Distinct(StringComparer.Ordinal))
        {
            o.Problem("valves", $"found \"{stranger}\", which is no valve of this engine", $"its valves are {string.Join(", ", valves.Select(v => v.Id))}");
        }

        if (named is not null && named.GroupBy(n => n).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            o.Problem("valves", $"\"{twice.Key}\" stands there twice", "each valve once");
        }

        return named is not null && lifts is { } way ? new(named, way) : null;
    }
}
