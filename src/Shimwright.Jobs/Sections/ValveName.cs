using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>The member "valve" that points to a valve of the engine.</summary>
internal static class ValveName
{
    /// <summary>The valve that is pointed to, or null with a problem noted; <paramref name="id"/> is what was written.</summary>
    public static ValveSection? Read(ObjectMembers o, EngineSection engine, out string? id)
    {
        string? name = id = o.Name("valve", "The id of a valve of the engine.", required: true);
        if (name is null)
        {
            return null;
        }

        ValveSection? valve = engine.Valves.FirstOrDefault(v => v.Id == name);
        if (valve is null)
        {
            string known = engine.Ids.Any() ? string.Join(", ", engine.Ids.Distinct(StringComparer.Ordinal)) : "none could be read";
            o.Problem("valve", $"found \"{name}\", which is no valve of this engine", $"its valves are {known}");
        }

        return valve;
    }
}
