using System.Reflection;

namespace Shimwright.Architecture;

/// <summary>The rooms of a project, which are its namespaces, and which of them uses which.</summary>
internal sealed class Rooms
{
    private readonly SortedDictionary<string, SortedDictionary<string, SortedSet<string>>> _arrows = new(StringComparer.Ordinal);

    private Rooms(string project) => Project = project;

    /// <summary>The project.</summary>
    public string Project { get; }

    /// <summary>How many rooms use others of the project or are used.</summary>
    public int Count => _arrows.Keys.Union(_arrows.Values.SelectMany(a => a.Keys)).Count();

    /// <summary>How many rooms are used by how many, added up.</summary>
    public int Arrows => _arrows.Values.Sum(a => a.Count);

    /// <summary>Reads the rooms out of an assembly.</summary>
    public static Rooms Of(Assembly assembly)
    {
        string project = assembly.GetName().Name!;
        string root = project == "shimwright" ? "Shimwright.Cli" : project;
        Rooms rooms = new(root);
        foreach (Type type in assembly.GetTypes().Where(t => IsIn(t.Namespace, root)))
        {
            foreach (Type used in CompiledTypes.UsedBy(type).Where(u => u.Assembly == assembly && IsIn(u.Namespace, root) && u.Namespace != type.Namespace))
            {
                rooms.Add(type, used);
            }
        }

        return rooms;
    }

    /// <summary>Every circle: rooms that reach each other, each with the types that lead from one to the next.</summary>
    public IReadOnlyList<string> Circles()
    {
        string[] rooms = [.. _arrows.Keys];
        Dictionary<string, HashSet<string>> reached = rooms.ToDictionary(r => r, Reach, StringComparer.Ordinal);
        HashSet<string> told = [];
        List<string> circles = [];
        foreach (string room in rooms)
        {
            string[] circle = [.. rooms.Where(other => reached[room].Contains(other) && reached[other].Contains(room))];
            if (circle.Length > 1 && told.Add(string.Join(' ', circle)))
            {
                circles.Add(string.Join('\n', circle.SelectMany(from => _arrows[from].Where(a => circle.Contains(a.Key))
                    .Select(a => $"{from} -> {a.Key}: {string.Join(", ", a.Value.Take(6))}"))));
            }
        }

        return circles;
    }

    private HashSet<string> Reach(string room)
    {
        HashSet<string> reached = [];
        Stack<string> next = new([room]);
        while (next.TryPop(out string? at))
        {
            foreach (string to in (_arrows.TryGetValue(at, out SortedDictionary<string, SortedSet<string>>? arrows) ? arrows.Keys : (IEnumerable<string>)[]).Where(reached.Add))
            {
                next.Push(to);
            }
        }

        return reached;
    }

    private void Add(Type from, Type to)
    {
        if (!_arrows.TryGetValue(from.Namespace!, out SortedDictionary<string, SortedSet<string>>? arrows))
        {
            _arrows[from.Namespace!] = arrows = new(StringComparer.Ordinal);
        }

        if (!arrows.TryGetValue(to.Namespace!, out SortedSet<string>? why))
        {
            arrows[to.Namespace!] = why = new(StringComparer.Ordinal);
        }

        why.Add($"{Outer(from)} uses {Outer(to)}");
    }

    private static string Outer(Type type) => type.DeclaringType is { } outer ? Outer(outer) : type.Name;

    private static bool IsIn(string? room, string project) =>
        room == project || room?.StartsWith(project + ".", StringComparison.Ordinal) == true;
}
