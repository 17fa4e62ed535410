using System.Globalization;

namespace Shimwright.Jobs.Members;

/// <summary>What a number in the job file measures, and so in which units it may be written as text.</summary>
internal enum Measure
{
    /// <summary>A bare number.</summary>
    Plain,

    /// <summary>A length; a bare number is millimetres.</summary>
    Length,

    /// <summary>A temperature; a bare number is degrees Celsius.</summary>
    Temperature,

    /// <summary>A time of work; a bare number is minutes.</summary>
    Duration,
}

/// <summary>The range of a number, both ends allowed unless the lower one is said to be left out.</summary>
internal sealed record NumberRule(double Least, double Greatest, Measure Measure = Measure.Plain, bool LeastIsLeftOut = false)
{
    public string Unit => Measure switch
    {
        Measure.Length => " mm",
        Measure.Temperature => " degrees C",
        Measure.Duration => " min",
        _ => "",
    };

    public bool Allows(double value) =>
        double.IsFinite(value) && value <= Greatest && (LeastIsLeftOut ? value > Least : value >= Least);

    public string Words => LeastIsLeftOut
        ? $"allowed is above {Text(Least)} up to {Text(Greatest)}{Unit}"
        : $"allowed is {Text(Least)} to {Text(Greatest)}{Unit}";

    /// <summary>The fewest hundredths of a millimetre that anybody would write for a length; less is another length in millimetres.</summary>
    private const double FewestHundredths = 3;

    /// <summary>The question to ask where hundredths of a millimetre seem to have been written for millimetres.</summary>
    public string Hint(double value) => Measure == Measure.Length && value > Greatest && Allows(value / 100) ? Hundredths(value) : "";

    /// <summary>The question itself, about a length that is too great; none where it is too small for hundredths, as the 1.20 of a lash cap is.</summary>
    public static string Hundredths(double value) => value >= FewestHundredths ? $"; {Text(value / 100)} meant?" : "";

    public static string Text(double value) => value.ToString("0.#########", CultureInfo.InvariantCulture);
}
