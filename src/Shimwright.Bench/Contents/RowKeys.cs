namespace Shimwright.Bench.Contents;

/// <summary>Which rows of a bench, by what tells them apart.</summary>
public sealed record RowKeys
{
    /// <summary>Cards.</summary>
    public List<Guid> Cards { get; init; } = [];

    /// <summary>Engines.</summary>
    public List<Guid> Engines { get; init; } = [];

    /// <summary>Jobs.</summary>
    public List<Guid> Jobs { get; init; } = [];

    /// <summary>Facts.</summary>
    public IReadOnlyList<(Guid Job, int Number)> Facts { get; init; } = [];

    /// <summary>Jobs that have promised nothing.</summary>
    public IReadOnlyList<Guid> Promises { get; init; } = [];

    /// <summary>Entries of the ledger.</summary>
    public IReadOnlyList<int> Ledger { get; init; } = [];

    /// <summary>Versions of the settings.</summary>
    public IReadOnlyList<int> Settings { get; init; } = [];

    /// <summary>Entries of books of trials.</summary>
    public IReadOnlyList<(Guid Person, int Number)> Feels { get; init; } = [];

    /// <summary>Whether nothing is counted any more.</summary>
    public bool Counts { get; init; }
}
