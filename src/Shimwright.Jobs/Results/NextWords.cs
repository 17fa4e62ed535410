using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>What is worth doing next, as a sentence.</summary>
public static class NextWords
{
    /// <summary>What to do.</summary>
    /// <param name="row">The action.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>A sentence.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="row"/> or <paramref name="words"/> is null.</exception>
    public static string Of(NextRow row, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(row);
        ArgumentNullException.ThrowIfNull(words);
        return row.Do switch
        {
            "blade" when row.Leaves > 1 => $"Try {string.Join(" and ", row.Blades.Select(words.Shim))} together at {row.Valve}{Again(row)}.",
            "blade" => $"Try {words.Shim(row.Blades[0])} at {row.Valve}{Again(row)}.",
            "bucket" => $"Turn the bucket of {row.Valve} by hand.",
            "micrometer" => OfShim(row.Shim!, words.Shim(row.Shim!.Thickness)),
            "depth" => row.Access is null ? $"Take a depth at {row.Valve}." : $"With the {row.Access} off, take a depth at {row.Valve}.",
            _ => $"Fit the {row.Access} dry and feel the changed valves.",
        };
    }

    /// <summary>Why it is worth doing: what it saves, or why the verdict waits for it.</summary>
    /// <param name="row">The action.</param>
    /// <returns>A sentence.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="row"/> is null.</exception>
    public static string Worth(NextRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.Needed switch
        {
            null => Worth(row.Saves),
            PassResult.NotFelt => "A changed valve cannot pass until it is felt again.",
            _ => "Felt too little to pass.",
        };
    }

    /// <summary>What it is worth, in whole minutes.</summary>
    /// <param name="saves">What it saves, minutes.</param>
    /// <returns>A sentence.</returns>
    public static string Worth(double saves) => (int)Math.Round(saves) switch
    {
        < 1 => "Saves less than a minute.",
        1 => "Saves about a minute.",
        var minutes => FormattableString.Invariant($"Saves about {minutes} minutes."),
    };

    /// <summary>What to do where nothing more pays.</summary>
    public static string PlanNow => "Nothing more pays. Plan now.";

    /// <summary>Why the minutes are more than the plan's where valves are stranded: left out, as there, what is learnt could save minutes by giving one up.</summary>
    /// <param name="valves">The stranded valves.</param>
    /// <returns>A sentence.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valves"/> is null.</exception>
    public static string Stranded(IReadOnlyList<string> valves)
    {
        ArgumentNullException.ThrowIfNull(valves);
        return valves is [var one]
            ? $"{one} is stranded and counts here as failing; the plan's minutes leave it out."
            : $"{string.Join(", ", valves)} are stranded and count here as failing; the plan's minutes leave them out.";
    }

    private static string Again(NextRow row) => row.IsRepeat ? " again" : "";

    private static string OfShim(FittedRow shim, string thickness) => shim.Source switch
    {
        "engine" => $"Measure the {thickness} shim of {shim.FromValve} with the micrometer.",
        "drawer" => $"Measure the {thickness} shim from the drawer with the micrometer.",
        _ => $"Buy the {thickness} shim and measure it with the micrometer before it goes in.",
    };
}
