using System.Globalization;

namespace Shimwright.Pocket.Here;

/// <summary>What the browser says of the store that the bench lies in, and when the bench was last carried out of it.</summary>
internal sealed class PocketState
{
    /// <summary>Where the whole bench is fetched.</summary>
    public const string ArchiveAddress = "/settings/copies/bench.zip";

    /// <summary>The note that says when it was.</summary>
    public const string CopiedNote = "copied";

    /// <summary>Whether the browser has promised not to clear the store when room is short; null where it does not say.</summary>
    public bool? IsLasting { get; private set; }

    /// <summary>Bytes used and allowed; null where the browser does not say.</summary>
    public (long Used, long Allowed)? Room { get; private set; }

    /// <summary>The address of the folder that the bench was loaded from.</summary>
    public string Home { get; set; } = "";

    /// <summary>When the whole bench was last fetched, UTC.</summary>
    public DateTime? CopiedAt { get; set; }

    /// <summary>Takes what the page says: lasting or not, bytes used, bytes allowed, between blanks; a question mark where the browser does not say.</summary>
    public void Hear(string here)
    {
        string[] parts = here.Split(' ');
        if (parts.Length == 3)
        {
            IsLasting = parts[0] switch { "yes" => true, "no" => false, _ => null };
            Room = long.TryParse(parts[1], CultureInfo.InvariantCulture, out long used) && long.TryParse(parts[2], CultureInfo.InvariantCulture, out long allowed) ? (used, allowed) : null;
        }
    }
}
