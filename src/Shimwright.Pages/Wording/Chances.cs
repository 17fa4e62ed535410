using System.Globalization;

namespace Shimwright.Pages.Wording;

/// <summary>Chances as a share of a hundred.</summary>
internal static class Chances
{
    /// <summary>To a tenth, without saying never or always: of a plan, where a tenth decides.</summary>
    public static string Fine(double chance) =>
        chance >= 0.9995 ? "over 99.9 %" : chance < 0.0005 ? "under 0.1 %" : (chance * 100).ToString("0.0", CultureInfo.InvariantCulture) + " %";

    /// <summary>To the whole, and never 0 or 100: of what is foreseen.</summary>
    public static string Rough(double chance) => chance switch
    {
        < 0.005 => "under 1 %",
        > 0.995 => "over 99 %",
        _ => Whole(chance),
    };

    /// <summary>To the whole, whatever it is.</summary>
    public static string Whole(double chance) => (chance * 100).ToString("0", CultureInfo.InvariantCulture) + " %";

    /// <summary>As the mark of an axis or the end of a range is written.</summary>
    public static string Mark(double chance) => (chance * 100).ToString("0.#", CultureInfo.InvariantCulture) + " %";
}
