using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Engines;

/// <summary>An engine as far as its valve clearances go: 1 to 64 valves in their order, the valve train, and how heat moves the gaps.</summary>
public sealed record Engine
{
    /// <summary>The most valves an engine may have.</summary>
    public const int MostValves = 64;

    /// <summary>Makes an engine.</summary>
    /// <param name="name">What the bench calls it, not blank.</param>
    /// <param name="valvetrain">How its clearances are adjusted.</param>
    /// <param name="valves">Its valves, 1 to 64, each id once.</param>
    /// <param name="clearancePerDegree">κ, the clearance gained per degree above 20 °C, mm; null where unknown.</param>
    /// <exception cref="ArgumentNullException"><paramref name="valvetrain"/> or <paramref name="valves"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valves"/> are none or too many, or <paramref name="clearancePerDegree"/> is not finite.</exception>
    /// <exception cref="ArgumentException"><paramref name="name"/> is blank, or two of <paramref name="valves"/> have the same id.</exception>
    public Engine(string name, Valvetrain valvetrain, IEnumerable<Valve> valves, double? clearancePerDegree = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(valvetrain);
        ArgumentNullException.ThrowIfNull(valves);
        Name = name;
        Valvetrain = valvetrain;
        Valves = [.. valves];
        ArgumentOutOfRangeException.ThrowIfZero(Valves.Count, nameof(valves));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(Valves.Count, MostValves, nameof(valves));
        if (Valves.DistinctBy(v => v.Id, StringComparer.Ordinal).Count() != Valves.Count)
        {
            throw new ArgumentException("Every valve needs an id of its own.", nameof(valves));
        }

        ClearancePerDegree = clearancePerDegree is { } k ? Guard.Finite(k, nameof(clearancePerDegree)) : null;
        AccessGroups = [.. Valves.Select(v => v.Access).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>What the bench calls the engine.</summary>
    public string Name { get; }

    /// <summary>How its clearances are adjusted.</summary>
    public Valvetrain Valvetrain { get; }

    /// <summary>The valves, in the order of the engine card.</summary>
    public IReadOnlyList<Valve> Valves { get; }

    /// <summary>κ, the clearance gained per degree above 20 °C, mm; null where unknown (computed as 0).</summary>
    public double? ClearancePerDegree { get; }

    /// <summary>The access groups, in the order in which the valves name them.</summary>
    public IReadOnlyList<string> AccessGroups { get; }
}
