namespace Shimwright.Bench.Drawer;

/// <summary>What lies in the drawer of one size.</summary>
/// <param name="Size">The size.</param>
/// <param name="Count">How many there are by the ledger.</param>
/// <param name="Promised">How many of them open jobs have promised.</param>
/// <param name="Fitted">How many of the promised ones are in an engine already, though the job is still open.</param>
/// <param name="Place">Where they lie; blank where nobody has said.</param>
/// <param name="Price">The price of one as it was stated last, or null.</param>
/// <param name="Newest">The number of its newest entry.</param>
public sealed record ShimLot(ShimSize Size, int Count, int Promised, int Fitted, string Place, double? Price, int Newest = 0)
{
    /// <summary>How many another job may use.</summary>
    public int Free => Math.Max(0, Count - Promised);

    /// <summary>How many should be lying in the compartment.</summary>
    public int Lying => Math.Max(0, Count - Fitted);
}

/// <summary>A size and how many of it: put in, or counted.</summary>
/// <param name="Size">The size.</param>
/// <param name="Count">How many.</param>
/// <param name="Place">Where they lie; null leaves what was said before.</param>
/// <param name="Price">The price of one; null leaves what was said before.</param>
public sealed record ShimCount(ShimSize Size, int Count, string? Place = null, double? Price = null);
