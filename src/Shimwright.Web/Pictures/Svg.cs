using System.Globalization;

namespace Shimwright.Web.Pictures;

/// <summary>Numbers as a drawing wants them: a decimal point whatever the culture, and no more digits than can be seen.</summary>
internal static class Svg
{
    public static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
