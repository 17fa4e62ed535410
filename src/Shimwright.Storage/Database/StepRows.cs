namespace Shimwright.Storage.Database;

/// <summary>Which bench it is for those who keep in step with it, and how many changes it has seen: one row, which triggers count up.</summary>
internal sealed class StepCountRow
{
    public int Id { get; set; }

    /// <summary>Made anew where the bench is put back from a copy: who followed it begins anew.</summary>
    public string Bench { get; set; } = "";

    public long Last { get; set; }
}

/// <summary>The last change of something. Triggers write it, whoever changes what, in the same transaction.</summary>
internal sealed class ChangeRow
{
    /// <summary>What changed; see <see cref="StepModel"/>.</summary>
    public string Kind { get; set; } = "";

    /// <summary>Which one, as the database writes its id; blank where there is only one.</summary>
    public string Key { get; set; } = "";

    public long At { get; set; }
}

/// <summary>A deed that came from another bench.</summary>
internal sealed class HeardRow
{
    public Guid Deed { get; set; }

    public Guid Pocket { get; set; }

    public string Device { get; set; } = "";

    /// <summary>When it was done by the clock of the device.</summary>
    public DateTime SaidAt { get; set; }

    /// <summary>When it came, by the clock here.</summary>
    public DateTime HeardAt { get; set; }

    /// <summary>What became of it, JSON.</summary>
    public string Answer { get; set; } = "";
}
