using Xunit;

namespace Shimwright.Domain.Tests;

/// <summary>What a value type does with a number that it may not take.</summary>
internal static class Refuses
{
    /// <summary>Refused by name, with the number and, in words, the range.</summary>
    public static void OutOfRange(string name, double value, string range, Func<object> make)
    {
        ArgumentOutOfRangeException refusal = Assert.Throws<ArgumentOutOfRangeException>(make);
        Assert.Equal(name, refusal.ParamName);
        Assert.Equal(value, refusal.ActualValue);
        Assert.Contains($"{name} must lie in {range}.", refusal.Message, StringComparison.Ordinal);
    }

    /// <summary>What is not a number is refused like a number out of range.</summary>
    public static void NotANumber(string name, Func<double, object> make)
    {
        Assert.Throws<ArgumentOutOfRangeException>(name, () => make(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(name, () => make(double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(name, () => make(double.NegativeInfinity));
    }
}
