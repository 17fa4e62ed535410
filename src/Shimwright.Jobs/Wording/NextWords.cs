using Shimwright.Domain.Advice;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;

namespace Shimwright.Jobs.Wording;

/// <summary>What is worth doing next, as a sentence.</summary>
public static class NextWords
{
    /// <summary>What to do.</summary>
    /// <param name="action">The action.</param>
    /// <param name="engine">The engine.</param>
    /// <param name="words">How lengths are written.</param>
    /// <returns>A sentence.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="action"/>, <paramref name="engine"/> or <paramref name="words"/> is null.</exception>
    public static string Of(AdvisedAction action, Engine engine, LengthWords words)
    {
        ArgumentNullException.ThrowIfNull(action);
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(words);
        string valve = action.Valve is { } v ? engine.Valves[v].Id : "";
        return action.Kind switch
        {
            ActionKind.Blade when action.Blades.Count > 1 =>
                $"Try {string.Join(" and ", action.Blades.Select(words.Shim))} together at {valve}.",
            ActionKind.Blade => $"Try {words.Shim(action.Blades[0])} at {valve}.",
            ActionKind.Bucket => $"Turn the bucket of {valve} by hand.",
            ActionKind.Micrometer => OfShim(action.Shim!, engine, words.Shim(action.Shim!.Thickness.Millimetres)),
            ActionKind.Depth => $"With {Lifted(action.Access!)} off, take a depth at {valve}.",
            _ => $"Fit {Lifted(action.Access!)} dry and feel the changed valves.",
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

    /// <summary>What stands where nothing more pays.</summary>
    public static string PlanNow => "Nothing more pays. Plan now.";

    private static string OfShim(AdvisedShim shim, Engine engine, string thickness) => shim.Source switch
    {
        ShimSource.Engine => $"Measure the {thickness} shim of {engine.Valves[shim.FromValve!.Value].Id} with the micrometer.",
        ShimSource.Drawer => $"Measure the {thickness} shim from the drawer with the micrometer.",
        _ => $"Measure the {thickness} shim you buy with the micrometer, before it goes in.",
    };

    private static string Lifted(string group) => group == Valve.NoAccess ? "the cover" : $"the {group}";
}
