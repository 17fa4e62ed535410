namespace Shimwright.Storage.Database;

/// <summary>An engine card as it is kept; engines of one card share what is known of them.</summary>
internal sealed class CardRow : ISummed
{
    public Guid Id { get; set; }

    public string Title { get; set; } = "";

    /// <summary>The member "engine" of a job file.</summary>
    public string Card { get; set; } = "";

    /// <summary>What a job file has no place for: shim diameter and range, minutes of access, where the limits come from.</summary>
    public string Details { get; set; } = "";

    /// <summary>Counts the changes; whoever saves says which one was seen.</summary>
    public int Version { get; set; }

    public DateTime ChangedAt { get; set; }

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    public IEnumerable<object?> Told() => [Id, Title, Card, Details, Version, ChangedAt];
}

/// <summary>An engine of the shop.</summary>
internal sealed class EngineRow : ISummed
{
    public Guid Id { get; set; }

    public Guid CardId { get; set; }

    public CardRow Card { get; set; } = null!;

    public string Name { get; set; } = "";

    /// <summary>The name as it is searched for.</summary>
    public string Search { get; set; } = "";

    public string Notes { get; set; } = "";

    public string Owner { get; set; } = "";

    public string Frame { get; set; } = "";

    /// <summary>What a person has said of its use, hours or km a week.</summary>
    public double? UsagePerWeek { get; set; }

    /// <summary>Counts what its forecast rests on: jobs closed and opened again, usage stated.</summary>
    public int Changes { get; set; }

    public int Version { get; set; }

    public DateTime AddedAt { get; set; }

    public DateTime? RetiredAt { get; set; }

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    // Rows from before they had papers keep their checksums.
    public IEnumerable<object?> Told() =>
        [Id, CardId, Name, Search, Notes, Version, AddedAt, .. RowSum.IfAny(RetiredAt), .. Owner.Length + Frame.Length > 0 ? new object?[] { Owner, Frame } : []];
}

/// <summary>A job: what it started from, and where its facts have brought it.</summary>
internal sealed class JobRow : ISummed
{
    public Guid Id { get; set; }

    public Guid EngineId { get; set; }

    public EngineRow Engine { get; set; } = null!;

    /// <summary>Counted by the bench; no checksum is of it, since it is the only one of its kind.</summary>
    public int Number { get; set; }

    public string Setup { get; set; } = "";

    /// <summary>Follows from the facts; kept so that lists need not read them.</summary>
    public int Stage { get; set; }

    /// <summary>The number of the last fact.</summary>
    public int Last { get; set; }

    /// <summary>The action that started the job; the same sent twice starts one job.</summary>
    public Guid Action { get; set; }

    public double Clock { get; set; }

    /// <summary>Where the past in the setup comes from.</summary>
    public int Past { get; set; }

    /// <summary>The job whose second round this is.</summary>
    public Guid? FollowsId { get; set; }

    public DateTime StartedAt { get; set; }

    public DateTime ChangedAt { get; set; }

    public DateTime? ClosedAt { get; set; }

    /// <summary>The record as it stood when the job was closed.</summary>
    public string? Record { get; set; }

    public DateTime? DiscardedAt { get; set; }

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    public IEnumerable<object?> Told() => [Id, EngineId, Setup, Stage, Last, Action, Clock, Past, FollowsId, StartedAt, ChangedAt, ClosedAt, Record, .. RowSum.IfAny(DiscardedAt)];
}

/// <summary>A fact of a job. Rows are added, never changed and never taken away.</summary>
internal sealed class FactRow : ISummed
{
    public Guid JobId { get; set; }

    public int Number { get; set; }

    public Guid Action { get; set; }

    public string Device { get; set; } = "";

    public DateTime At { get; set; }

    public string Fact { get; set; } = "";

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    public IEnumerable<object?> Told() => [JobId, Number, Action, Device, At, Fact];
}

/// <summary>The bench's settings, every state that they had.</summary>
internal sealed class SettingsRow : ISummed
{
    public int Version { get; set; }

    public string Device { get; set; } = "";

    public DateTime At { get; set; }

    public string Settings { get; set; } = "";

    /// <inheritdoc/>
    public long? Sum { get; set; }

    /// <inheritdoc/>
    public IEnumerable<object?> Told() => [Version, Device, At, Settings];
}
