namespace Shimwright.Storage.Database;

/// <summary>The drawer's one row: whoever writes an entry or a promise holds it first.</summary>
internal sealed class DrawerRow
{
    public int Id { get; set; }

    /// <summary>The number of the last entry.</summary>
    public int Last { get; set; }
}

/// <summary>An entry of the drawer's ledger. Rows are added, never changed and never taken away; a count is the sum of its changes.</summary>
internal sealed class ShimMoveRow : ISummed
{
    public int Number { get; set; }

    /// <summary>Diameter, whole micrometres.</summary>
    public int Diameter { get; set; }

    /// <summary>Thickness, whole micrometres.</summary>
    public int Thickness { get; set; }

    public string By { get; set; } = "";

    public int Change { get; set; }

    public int Reason { get; set; }

    public Guid? JobId { get; set; }

    /// <summary>The entry that this one takes back.</summary>
    public int? Undoes { get; set; }

    public string? Place { get; set; }

    public double? Price { get; set; }

    public Guid Action { get; set; }

    public string Device { get; set; } = "";

    public DateTime At { get; set; }

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    public IEnumerable<object?> Told() => [Number, Diameter, Thickness, By, Change, Reason, JobId, Undoes, Place, Price, Action, Device, At];
}

/// <summary>Shims that an open job's accepted plan uses. Follows from the job's facts; kept so that other jobs need not read them.</summary>
internal sealed class ShimPromiseRow
{
    public Guid JobId { get; set; }

    public int Diameter { get; set; }

    public int Thickness { get; set; }

    public string By { get; set; } = "";

    public int Count { get; set; }

    /// <summary>How many of them are in the engine already, and no longer in the drawer.</summary>
    public int Fitted { get; set; }
}
