using System.Globalization;
using System.Runtime.CompilerServices;

namespace Shimwright.Domain.Numerics;

/// <summary>
/// The one place where numbers are let in. Asks for finiteness first: the platform's own
/// range helpers let NaN and positive infinity through.
/// </summary>
internal static class Guard
{
    /// <summary>Returns <paramref name="value"/> if it is finite and in [low, high]; throws otherwise.</summary>
    public static double Within(
        double value, double low, double high, [CallerArgumentExpression(nameof(value))] string name = "")
    {
        if (double.IsFinite(value) && value >= low && value <= high)
        {
            return value;
        }

        throw new ArgumentOutOfRangeException(
            name, value, string.Create(CultureInfo.InvariantCulture, $"{name} must lie in {low} to {high}."));
    }

    /// <summary>Returns <paramref name="value"/> if it is finite; throws otherwise.</summary>
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        Within(value, double.MinValue, double.MaxValue, name);
}
