using System.Globalization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Rechecking;
using static System.FormattableString;

namespace Shimwright.Jobs.Wording;

/// <summary>Why a valve does not pass its re-check, and what to do about it.</summary>
public static class VerdictWords
{
    /// <summary>A result in a few words.</summary>
    /// <param name="result">The result.</param>
    /// <returns>For a column.</returns>
    public static string Of(PassResult result) => result switch
    {
        PassResult.Passes => "passes",
        PassResult.FeltTooLittle => "felt too little",
        PassResult.NotFelt => "not felt again",
        _ => "does not pass",
    };

    /// <summary>Why a valve that was felt does not pass; null where it does, or was not felt yet.</summary>
    /// <param name="valve">The valve with its verdict.</param>
    /// <param name="rule">The rule that it was judged by.</param>
    /// <param name="blades">The person's blades, mm.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>A sentence or two.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valve"/>, <paramref name="rule"/>, <paramref name="blades"/> or <paramref name="words"/> is null.</exception>
    public static string? WhyNot(RecheckedValve valve, PassRule rule, IReadOnlyList<double> blades, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(valve);
        ArgumentNullException.ThrowIfNull(rule);
        ArgumentNullException.ThrowIfNull(blades);
        ArgumentNullException.ThrowIfNull(words);
        string again = $"Feel it again with {Blades(valve.Valve.Band, blades, words)}";
        return (valve.Result, valve.Alone) switch
        {
            (PassResult.FeltTooLittle, { } alone) =>
                $"{valve.Valve.Id}: felt too little to pass. What was felt gives a {Percent(alone)} chance in band by itself; {Percent(PassRule.AloneFloor)} is the least. {again}.",
            (PassResult.TooDoubtful, not null) =>
                $"{valve.Valve.Id} does not pass: {Percent(valve.Estimate.InBand)} chance in band; {Percent(rule.Floor)} is the least. {again}, or plan it again.",
            _ => null,
        };
    }

    /// <summary>The two blades next to the limits: the one should go in, the other should not.</summary>
    private static string Blades(ClearanceBand band, IReadOnlyList<double> blades, LengthWords words)
    {
        double[] below = [.. blades.Where(b => b <= band.Low)], above = [.. blades.Where(b => b >= band.High)];
        return (below.Length, above.Length) switch
        {
            (0, 0) => "another blade",
            (_, 0) => Invariant($"the {words.Shim(below.Max())} {words.Unit} blade"),
            (0, _) => Invariant($"the {words.Shim(above.Min())} {words.Unit} blade"),
            _ => Invariant($"the {words.Shim(below.Max())} and {words.Shim(above.Min())} {words.Unit} blades"),
        };
    }

    /// <summary>Rounded down, so that what falls short of a limit is not said to reach it.</summary>
    private static string Percent(double chance) =>
        (Math.Floor(Math.Round(chance * 1000, 6)) / 10).ToString("0.#", CultureInfo.InvariantCulture) + " %";
}
