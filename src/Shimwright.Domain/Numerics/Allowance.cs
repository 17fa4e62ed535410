namespace Shimwright.Domain.Numerics;

/// <summary>How many steps something may take, and how many it has taken: a count, so that the same input always ends in the same place.</summary>
/// <param name="most">The most steps.</param>
internal sealed class Allowance(double most)
{
    /// <summary>Steps taken so far.</summary>
    public double Taken { get; private set; }

    /// <summary>Whether there is none left.</summary>
    public bool IsSpent => Taken >= most;

    /// <summary>Whether there are so many left.</summary>
    public bool Affords(double steps) => Taken + steps <= most;

    /// <summary>Counts steps.</summary>
    public void Take(double steps) => Taken += steps;

    /// <summary>A part of what is left.</summary>
    public Allowance Part(double greatest) => new(Math.Min(greatest, most - Taken));
}
