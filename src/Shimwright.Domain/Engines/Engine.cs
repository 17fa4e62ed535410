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
    /// <param name="heat">κ of either side; null where unknown.</param>
    /// <param name="sense">Which way wear moves its gaps.</param>
    /// <exception cref="ArgumentNullException"><paramref name="valvetrain"/> or <paramref name="valves"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valves"/> are none or too many, or <paramref name="sense"/> is neither.</exception>
    /// <exception cref="ArgumentException"><paramref name="name"/> is blank, or two of <paramref name="valves"/> have the same id.</exception>
    public Engine(string name, Valvetrain valvetrain, IEnumerable<Valve> valves, HeatGain? heat, GapSense sense = GapSense.Opening)
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

        Heat = heat;
        Sense = Enum.IsDefined(sense) ? sense : throw new ArgumentOutOfRangeException(nameof(sense));
        AccessGroups = [.. Valves.Where(v => v.HasAccess).Select(v => v.Access).Distinct(StringComparer.Ordinal)];
        Groups = [.. Valves.Select(v => v.Group).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>Makes an engine whose sides heat alike.</summary>
    /// <param name="name">What the bench calls it, not blank.</param>
    /// <param name="valvetrain">How its clearances are adjusted.</param>
    /// <param name="valves">Its valves, 1 to 64, each id once.</param>
    /// <param name="clearancePerDegree">κ, the clearance gained per degree above 20 °C, mm; null where unknown.</param>
    /// <exception cref="ArgumentNullException"><paramref name="valvetrain"/> or <paramref name="valves"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="valves"/> are none or too many, or <paramref name="clearancePerDegree"/> is not finite.</exception>
    /// <exception cref="ArgumentException"><paramref name="name"/> is blank, or two of <paramref name="valves"/> have the same id.</exception>
    public Engine(string name, Valvetrain valvetrain, IEnumerable<Valve> valves, double? clearancePerDegree = null)
        : this(name, valvetrain, valves, clearancePerDegree is { } k ? new HeatGain(Guard.Finite(k, nameof(clearancePerDegree)), k) : null)
    {
    }

    /// <summary>What the bench calls the engine.</summary>
    public string Name { get; }

    /// <summary>How its clearances are adjusted.</summary>
    public Valvetrain Valvetrain { get; }

    /// <summary>The valves, in the order of the engine card.</summary>
    public IReadOnlyList<Valve> Valves { get; }

    /// <summary>What heat adds to the gaps of either side; null where unknown.</summary>
    public HeatGain? Heat { get; }

    /// <summary>Which way wear moves the gaps.</summary>
    public GapSense Sense { get; }

    /// <summary>κ of a side, mm a degree; null where unknown.</summary>
    /// <param name="side">Intake or exhaust.</param>
    /// <returns>The clearance gained per degree above 20 °C.</returns>
    public double? ClearancePerDegreeOf(ValveSide side) => Heat?.Of(side);

    /// <summary>What may have to be lifted, in the order in which the valves name it.</summary>
    public IReadOnlyList<string> AccessGroups { get; }

    /// <summary>The valves' groups, in the same order: what may have to be lifted, and each valve that needs no lifting.</summary>
    public IReadOnlyList<string> Groups { get; }

    /// <summary>The valves of an access group, in the engine's order.</summary>
    /// <param name="access">The group.</param>
    /// <returns>The valves; none where there is no such group.</returns>
    public IEnumerable<Valve> Under(string access) => Valves.Where(v => v.Access == access);
}
