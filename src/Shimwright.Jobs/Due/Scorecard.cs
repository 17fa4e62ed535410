using Shimwright.Domain.Numerics;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;

namespace Shimwright.Jobs.Due;

/// <summary>A record with what the scorecard has to know of its job.</summary>
/// <param name="Record">The record.</param>
/// <param name="IsSecondRound">Whether the job is the second round of another.</param>
public sealed record ScoredRecord(JobRecord Record, bool IsSecondRound)
{
    /// <summary>When the job was closed, UTC.</summary>
    public DateTime ClosedAt { get; init; }

    /// <summary>Whether every valve that was changed was felt again.</summary>
    public bool ChangedAreReadAgain => Record.Valves.All(v => v.Change is null || v.ReadAgain);
}

/// <summary>One fitting: what was expected of the gap and what it became.</summary>
/// <param name="Engine">The engine.</param>
/// <param name="Valve">The valve.</param>
/// <param name="Expected">Expected clearance, mm.</param>
/// <param name="ExpectedSpread">Its standard deviation, mm.</param>
/// <param name="After">Clearance after the re-check, mm.</param>
/// <param name="Miss">How far it was felt from where it was expected; null where the reading said too little.</param>
public sealed record ScoredFitting(string Engine, string Valve, double Expected, double ExpectedSpread, double After, FittingMiss? Miss);

/// <summary>Plans that stated about the same chance, and how many of them came out.</summary>
/// <param name="From">Lower edge of the chances, counted in.</param>
/// <param name="To">Upper edge.</param>
/// <param name="Stated">Mean of the chances that were stated.</param>
/// <param name="Passed">How many passed the first time, with the interval.</param>
public sealed record ScoredChances(double From, double To, double Stated, BinomialShare Passed);

/// <summary>How what was said came out: clearances after fittings, chances of passing, and the seating error that follows.</summary>
public sealed class Scorecard
{
    /// <summary>Edges of the chances that are looked at together.</summary>
    private static readonly double[] Edges = [0, 0.5, 0.7, 0.8, 0.9, 0.95, 1];

    private const double Reach95 = 1.959964;

    private Scorecard(IReadOnlyList<ScoredFitting> fittings, IReadOnlyList<ScoredChances> chances, SeatingEstimate? seating)
    {
        Fittings = fittings;
        Chances = chances;
        Seating = seating;
    }

    /// <summary>Fittings of shims that were felt again, the newest first.</summary>
    public IReadOnlyList<ScoredFitting> Fittings { get; }

    /// <summary>Stated chances against what came out, from low to high; only those that there are.</summary>
    public IReadOnlyList<ScoredChances> Chances { get; }

    /// <summary>The seating error that the fittings tell; null while they are too few.</summary>
    public SeatingEstimate? Seating { get; }

    /// <summary>Fittings whose reading says how far they landed.</summary>
    public IReadOnlyList<FittingMiss> Misses => [.. Fittings.Select(f => f.Miss).OfType<FittingMiss>()];

    /// <summary>Fittings that landed within 95 % of what was expected of them and of their reading; null where there are none.</summary>
    /// <param name="seating">The seating that is reckoned with, mm.</param>
    /// <returns>The share.</returns>
    public BinomialShare? Within(double seating)
    {
        IReadOnlyList<FittingMiss> misses = Misses;
        return misses.Count == 0 ? null : new BinomialShare(
            misses.Count(m => Math.Abs(m.Miss) <= Reach95 * m.StandardDeviationWith(seating)), misses.Count);
    }

    /// <summary>Looks back over closed jobs.</summary>
    /// <param name="records">Their records, the newest first.</param>
    /// <returns>The scorecard.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="records"/> is null.</exception>
    public static Scorecard Of(IReadOnlyList<ScoredRecord> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        ScoredFitting[] fittings = [.. records.SelectMany(r => r.Record.Valves.Select(v => FittingOf(r.Record, v)).OfType<ScoredFitting>())];
        (double Stated, bool Passed)[] promises = [.. records.Select(PromiseOf).OfType<(double, bool)>()];
        return new(
            fittings,
            [.. Edges.Zip(Edges.Skip(1)).Select(e => ChancesIn(e.First, e.Second, promises)).OfType<ScoredChances>()],
            SeatingEstimate.Of([.. fittings.Select(f => f.Miss).OfType<FittingMiss>()]));
    }

    private static ScoredFitting? FittingOf(JobRecord record, RecordRow row) =>
        row is { Change: "fit", ReadAgain: true, Expected: { } expected, After: { } after }
            ? new(record.Engine, row.Valve, expected.Mean, expected.Sd, after.Mean,
                FittingMiss.Of(expected.Mean, expected.Sd, after.Mean, after.Sd, record.Seating ?? BenchSettings.UsualSeating))
            : null;

    /// <summary>
    /// A promise counts where a plan was made, by a first round, and every valve that was changed was felt again. It was kept where every
    /// valve was more likely in band than not: what was promised is the band, and the floor of a pass is another in older records.
    /// </summary>
    internal static (double Stated, bool Passed)? PromiseOf(ScoredRecord scored) =>
        scored is { IsSecondRound: false, Record.ChancePromised: { } stated, ChangedAreReadAgain: true }
            ? (stated, scored.Record.Valves.All(v => v.After is { InBand: >= 0.5 }))
            : null;

    private static ScoredChances? ChancesIn(double from, double to, (double Stated, bool Passed)[] promises)
    {
        (double Stated, bool Passed)[] inside = [.. promises.Where(p => p.Stated >= from && (p.Stated < to || (to >= 1 && p.Stated <= 1)))];
        return inside.Length == 0 ? null
            : new(from, to, inside.Average(p => p.Stated), new BinomialShare(inside.Count(p => p.Passed), inside.Length));
    }
}
