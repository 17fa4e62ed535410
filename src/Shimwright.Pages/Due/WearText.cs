using System.Globalization;

namespace Shimwright.Pages.Due;

/// <summary>Wear in words.</summary>
internal static class WearText
{
    /// <summary>How strong a sign is: how often an engine with nothing wrong would look so.</summary>
    public static string Evidence(double chance) => chance switch
    {
        <= 0 => "An engine with nothing wrong would hardly ever look so.",
        < 1e-6 => "An engine with nothing wrong would look so less than once in a million checks.",
        < 0.1 => string.Create(CultureInfo.InvariantCulture, $"An engine with nothing wrong would look so about once in {Round(1 / chance):0} checks."),
        _ => string.Create(CultureInfo.InvariantCulture, $"Chance of it: {chance * 100:0} %."),
    };

    /// <summary>A time that is not known to the hour, to two digits.</summary>
    public static double Rough(double value) => value > 0 ? Round(value) : value;

    private static double Round(double value)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        return Math.Round(value / power) * power;
    }
}
