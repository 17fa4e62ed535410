using Shimwright.Domain.Uncertainty;

namespace Shimwright.Domain.Depth;

/// <summary>What was measured at one valve with its camshaft lifted; mm.</summary>
public sealed record ValveDepth
{
    /// <summary>Makes a measurement.</summary>
    /// <param name="bucket">Depth from the parting face to what the cam runs on: the bucket, or the shim on it.</param>
    /// <param name="shim">The shim that lies on the bucket, where the depth was taken to the bucket without it; else left out.</param>
    /// <exception cref="ArgumentNullException"><paramref name="bucket"/> is null.</exception>
    public ValveDepth(InputQuantity bucket, InputQuantity? shim = null)
    {
        ArgumentNullException.ThrowIfNull(bucket);
        Bucket = bucket;
        Shim = shim;
    }

    /// <summary>Depth from the parting face to the bucket, or to the shim on it.</summary>
    public InputQuantity Bucket { get; }

    /// <summary>The shim that lies on the bucket and was out when the depth was taken, or null.</summary>
    public InputQuantity? Shim { get; }

    /// <summary>The lines of a budget, with this sign.</summary>
    internal IEnumerable<BudgetLine> Lines(int sign) =>
        [new(Bucket, sign), .. Shim is null ? Array.Empty<BudgetLine>() : [new(Shim, -sign)]];
}
