namespace Shimwright.Storage.Database;

/// <summary>An entry of a person's book of trials. Rows are added, never changed and never taken away.</summary>
internal sealed class FeelRow : ISummed
{
    public Guid PersonId { get; set; }

    public int Number { get; set; }

    /// <summary>The action that wrote it; the same sent twice is one entry.</summary>
    public Guid Action { get; set; }

    public string Device { get; set; } = "";

    public DateTime At { get; set; }

    public string Entry { get; set; } = "";

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    public IEnumerable<object?> Told() => [PersonId, Number, Action, Device, At, Entry];
}
