using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Pictures;

namespace Shimwright.Pages.Jobs.Readings;

/// <summary>Where the crank stands for a valve.</summary>
/// <param name="Number">The stop, from 1.</param>
/// <param name="Count">How many stops there are.</param>
/// <param name="Words">How to get there.</param>
/// <param name="Valves">The valves that are read there.</param>
/// <param name="Cautions">What to heed on the way there.</param>
public sealed record StopPlace(int Number, int Count, string Words, IReadOnlyList<string> Valves, IReadOnlyList<string> Cautions);

/// <summary>One of the two rounds of reading: every valve with what is known, and the order in which they are gone through.</summary>
public sealed class ReadingRound
{
    private readonly IReadOnlyList<StopPlace> _stops;
    private readonly string? _mostTelling;

    public ReadingRound(SheetPart part, IReadOnlyList<RoundValve> valves, StopsResult? stops, int? crank, string? mostTelling = null)
    {
        Part = part;
        Valves = valves;
        _mostTelling = mostTelling;
        Crank = stops is null ? null : crank;
        _stops = stops is null
            ? [new StopPlace(1, 1, "", [.. valves.Select(v => v.Valve.Id)], [])]
            : [.. stops.Stops.Select((s, i) => new StopPlace(i + 1, stops.Stops.Count, s.Words, [.. s.Valves.Select(v => v.Valve)], s.Cautions))];
        HasStops = stops is not null;
    }

    public SheetPart Part { get; }

    public IReadOnlyList<RoundValve> Valves { get; }

    /// <summary>Whether the card says where the crank stops.</summary>
    public bool HasStops { get; }

    /// <summary>The stop at which the crank was left, from 1; null where nobody said.</summary>
    public int? Crank { get; }

    /// <summary>Whether the crank has to be turned before a valve can be felt: it was left elsewhere, or nothing was felt there yet and it was never said where it is.</summary>
    public bool MustTurnFor(RoundValve valve) =>
        StopOf(valve) is { } stop && (Crank is { } at ? at != stop.Number : Valves.All(v => !v.IsRead) && valve.IsNeeded);

    /// <summary>Whether a valve can be felt as the crank is now, as far as is known.</summary>
    public bool IsReachable(RoundValve valve) => Crank is null || StopOf(valve)?.Number == Crank;

    /// <summary>How many valves the round still waits for.</summary>
    public int Left => Valves.Count(IsOpen);

    /// <summary>The valve of an id, or, where there is none, the one that matters next.</summary>
    public RoundValve Select(string? id) =>
        Valves.FirstOrDefault(v => v.Valve.Id == id) ?? Next(_ => true) ?? Valves[0];

    /// <summary>The valve to go on with once one is done; null where nothing is left to settle.</summary>
    public RoundValve? After(RoundValve current) => Next(v => v.Valve.Id != current.Valve.Id);

    /// <summary>Where the crank stands for a valve; null where the card does not say.</summary>
    public StopPlace? StopOf(RoundValve valve) => HasStops ? _stops.FirstOrDefault(s => s.Valves.Contains(valve.Valve.Id)) : null;

    public IReadOnlyList<HeadValve> Head(RoundValve selected, Func<RoundValve, string> link) =>
        [.. Valves.Select(v => new HeadValve(v.Valve, v.Status, link(v), v.Valve.Id == selected.Valve.Id, v.IsRead || v.IsNeeded ? null : "left alone", !IsReachable(v)))];

    /// <summary>
    /// The stop at hand first: the one with a valve that is still to be read. There the valve whose reading would tell
    /// most, else the first. With all of them read, one that another trial may settle.
    /// </summary>
    private RoundValve? Next(Func<RoundValve, bool> which)
    {
        RoundValve? telling = Valves.FirstOrDefault(v => v.Valve.Id == _mostTelling && which(v));
        RoundValve[] here = [.. _stops
            .OrderBy(s => s.Number == Crank ? 0 : 1)
            .Select(s => InOrder(s).Where(v => IsOpen(v) && which(v)).ToArray())
            .FirstOrDefault(open => open.Length > 0) ?? []];
        return here.Length == 0 ? telling ?? InOrder().FirstOrDefault(v => v.IsRead && !v.IsDone && which(v))
            : telling is not null && here.Contains(telling) ? telling
            : here[0];
    }

    private IEnumerable<RoundValve> InOrder() => _stops.SelectMany(InOrder);

    private IEnumerable<RoundValve> InOrder(StopPlace stop) => stop.Valves.Select(id => Valves.First(v => v.Valve.Id == id));

    private static bool IsOpen(RoundValve valve) => valve.IsNeeded && !valve.IsRead;
}
