namespace Shimwright.Domain.Engines;

/// <summary>One valve: its name, where it sits, what has to be lifted to reach its adjuster, and its band.</summary>
public sealed record Valve
{
    /// <summary>The access of a valve whose adjuster is reached without lifting anything, as where a finger or rocker slides aside.</summary>
    public const string NoAccess = "none";

    /// <summary>Makes a valve.</summary>
    /// <param name="id">Its name, unique in the engine, not blank.</param>
    /// <param name="cylinder">Its cylinder, 1 or more.</param>
    /// <param name="side">Intake or exhaust.</param>
    /// <param name="access">Its access group: what has to be lifted to change its shim. Not blank.</param>
    /// <param name="band">The maker's cold limits.</param>
    /// <exception cref="ArgumentNullException"><paramref name="band"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="cylinder"/> is below 1, or <paramref name="side"/> is neither.</exception>
    /// <exception cref="ArgumentException"><paramref name="id"/> or <paramref name="access"/> is blank.</exception>
    public Valve(string id, int cylinder, ValveSide side, string access, ClearanceBand band)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(id);
        ArgumentException.ThrowIfNullOrWhiteSpace(access);
        ArgumentOutOfRangeException.ThrowIfLessThan(cylinder, 1);
        ArgumentNullException.ThrowIfNull(band);
        Id = id;
        Cylinder = cylinder;
        Side = Enum.IsDefined(side) ? side : throw new ArgumentOutOfRangeException(nameof(side));
        Access = access;
        Band = band;
    }

    /// <summary>The valve's name, such as I1.</summary>
    public string Id { get; }

    /// <summary>The cylinder it belongs to, from 1.</summary>
    public int Cylinder { get; }

    /// <summary>Intake or exhaust.</summary>
    public ValveSide Side { get; }

    /// <summary>The access group: valves that are reached by lifting the same part; "none" where nothing is lifted.</summary>
    public string Access { get; }

    /// <summary>Whether something has to be lifted to reach its adjuster.</summary>
    public bool HasAccess => Access != NoAccess;

    /// <summary>The valves that one opening reaches together: those of its access group, or this one alone where nothing is lifted.</summary>
    public string Group => HasAccess ? Access : $"{NoAccess}\n{Id}";

    /// <summary>The maker's cold limits.</summary>
    public ClearanceBand Band { get; }
}
