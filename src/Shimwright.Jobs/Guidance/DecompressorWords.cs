using Shimwright.Domain.CrankStops;

namespace Shimwright.Jobs.Guidance;

/// <summary>An automatic decompressor in words. Common practice of the trade, no source; the maker's manual comes first.</summary>
public static class DecompressorWords
{
    /// <summary>How to come to a stop at which its valves are read.</summary>
    /// <param name="valves">The valves that are read there, by name.</param>
    /// <param name="lifts">Which way it lifts.</param>
    /// <returns>Two sentences.</returns>
    public static string Approach(IEnumerable<string> valves, DecompressorLift lifts) => $"{List(valves)}: " + lifts switch
    {
        DecompressorLift.Forwards => "the decompressor lifts as the crank turns forwards, so turn past its lift to this stop. It lets go when the crank turns back a little.",
        DecompressorLift.Backwards => "the decompressor lifts as the crank turns back, so come to this stop forwards. If you go back, come forwards again by 30 degrees at least.",
        _ => "the decompressor lifts whichever way the crank turns, so turn past its lift to this stop. See that the follower is loose before the blade goes in.",
    };

    /// <summary>What to think of first where one of its valves reads tight.</summary>
    /// <param name="valves">The tight valves, by name.</param>
    /// <param name="lifts">Which way it lifts.</param>
    /// <returns>Two sentences.</returns>
    public static string Tight(IEnumerable<string> valves, DecompressorLift lifts)
    {
        string[] names = [.. valves];
        return $"The decompressor works on {List(names)}, which {(names.Length == 1 ? "reads" : "read")} tight. "
            + lifts switch
            {
                DecompressorLift.Forwards => "Turn past its lift, or back a little until it lets go, and feel again before you change anything.",
                DecompressorLift.Backwards => "Turn forwards by 30 degrees at least to the stop, so that it lets go, and feel again before you change anything.",
                _ => "Turn past its lift, and feel again before you change anything.",
            };
    }

    private static string List(IEnumerable<string> valves) => string.Join(", ", valves);
}
