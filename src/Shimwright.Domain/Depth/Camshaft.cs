using Shimwright.Domain.Uncertainty;

namespace Shimwright.Domain.Depth;

/// <summary>
/// What all valves under one camshaft have in common when it is lifted and put back: where its base circle comes to lie below
/// the parting face. Lengths in mm; diameters, since that is what a micrometer gives.
/// </summary>
public sealed record Camshaft
{
    /// <summary>Describes a camshaft.</summary>
    /// <param name="saddle">Depth of the lowest point of its bearing saddle below the parting face.</param>
    /// <param name="journal">Diameter of the journal that lies in that saddle.</param>
    /// <param name="baseCircle">Diameter of the cams' base circle.</param>
    /// <param name="play">How far the camshaft stands off its saddle where the clearance counts, pushed up by other valves' springs; none where left out.</param>
    /// <exception cref="ArgumentNullException"><paramref name="saddle"/>, <paramref name="journal"/> or <paramref name="baseCircle"/> is null.</exception>
    public Camshaft(InputQuantity saddle, InputQuantity journal, InputQuantity baseCircle, InputQuantity? play = null)
    {
        ArgumentNullException.ThrowIfNull(saddle);
        ArgumentNullException.ThrowIfNull(journal);
        ArgumentNullException.ThrowIfNull(baseCircle);
        Saddle = saddle;
        Journal = journal;
        BaseCircle = baseCircle;
        Play = play;
    }

    /// <summary>Depth of the saddle's lowest point below the parting face.</summary>
    public InputQuantity Saddle { get; }

    /// <summary>Diameter of the journal.</summary>
    public InputQuantity Journal { get; }

    /// <summary>Diameter of the base circle.</summary>
    public InputQuantity BaseCircle { get; }

    /// <summary>How far the camshaft stands off its saddle where the clearance counts; null where it lies in it.</summary>
    public InputQuantity? Play { get; }

    /// <summary>The lines of a budget: clearance = … - saddle + journal/2 - base circle/2 + play.</summary>
    internal IEnumerable<BudgetLine> Lines() =>
    [
        new(Saddle, -1),
        new(Journal, 0.5),
        new(BaseCircle, -0.5),
        .. Play is null ? Array.Empty<BudgetLine>() : [new(Play, 1)],
    ];
}
