using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Written;

/// <summary>Shims of one thickness at hand.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
/// <param name="Count">How many.</param>
public sealed record ShimsAtHand(double Thickness, string By, int Count)
{
    /// <summary>What is marked on shims that were measured, mm, where it is known.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Marked { get; init; }
}

/// <summary>Sizes that can be bought.</summary>
/// <param name="From">The first size, mm.</param>
/// <param name="To">The last size, mm.</param>
/// <param name="Step">The distance of the sizes, mm.</param>
/// <param name="Price">The price of one, in the bench's currency.</param>
public sealed record SizesToBuy(double From, double To, double Step, double Price);
