using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>One dry fit: what was in at the valves of an access group, and what was felt with the camshaft laid down.</summary>
internal sealed record DryFitSection(string? Access, ChangedSection Changed, ReadingsSection Readings)
{
    public static DryFitSection Read(
        ObjectMembers o, EngineSection engine, InstrumentSet instruments, double? temperature, ChangedSection after)
    {
        string? access = o.Name("access", "The access group whose camshaft was laid down dry.", required: true);
        if (engine.Adjuster == Adjuster.Screw)
        {
            o.Problem("", "found a dry fit", "an engine with screws has no shims to try");
        }

        string[] groups = [.. engine.Valves.Select(v => v.Access).OfType<string>().Where(a => a != Valve.NoAccess).Distinct()];
        HashSet<string> under = [.. engine.Valves.Where(v => v.Access == access && v.Id is not null).Select(v => v.Id!)];
        if (access is not null && !groups.Contains(access))
        {
            o.Problem("access", $"found \"{access}\"", groups.Length == 0 ? "this engine has no access group that is lifted" : $"its groups are {string.Join(", ", groups)}");
        }

        ChangedSection changed = ChangedSection.Read(o, engine, instruments);
        ReadingsSection readings = ReadingsSection.Read(o, engine, temperature, required: true, withDepths: false);
        foreach (string other in changed.Named.Union(readings.Named).Where(v => access is not null && under.Count > 0 && !under.Contains(v)))
        {
            o.Problem(changed.Named.Contains(other) ? "changed" : "readings", $"\"{other}\" does not lie under the {access}", $"a dry fit of it is of {string.Join(", ", under)}");
        }

        return new(access, o.Has("changed") ? changed : after.Only(under), readings);
    }

    /// <summary>What was felt, in the engine's order.</summary>
    public IReadOnlyList<ValveReadings> InOrder(Engine engine) => [.. Readings.InOrder(engine)];
}
