using System.Globalization;

namespace Shimwright.Browser.Work;

/// <summary>An engine that is played: its true gaps, and what an even hand feels in them. Shims are off their marks by a little.</summary>
internal sealed class PlayedEngine(Dictionary<string, double> gaps, Dictionary<string, double> shims)
{
    /// <summary>The gap at a valve as it is, mm.</summary>
    public double GapAt(string valve) => gaps[valve];

    /// <summary>What a micrometer says of the shim in a valve, mm.</summary>
    public double ShimAt(string valve) => shims[valve];

    /// <summary>What a shim of a size really measures, mm: up to 0.008 off its mark, always the same.</summary>
    public static double Measured(double marked) => Math.Round(marked + (0.008 * Math.Sin(1000 * marked)), 3);

    /// <summary>What a blade or a stack feels like, as its button reads.</summary>
    public string Feel(string valve, double blade) => (GapAt(valve) - blade) switch
    {
        < -0.025 => "won't enter",
        < -0.005 => "firm",
        < 0.017 => "light",
        _ => "loose",
    };

    /// <summary>Whether the bucket turns.</summary>
    public bool Turns(string valve) => GapAt(valve) > 0;

    /// <summary>Another shim goes in and seats 0.002 mm off, one way or the other.</summary>
    public void Fit(string valve, double thickness)
    {
        gaps[valve] += shims[valve] - thickness + (0.002 * Math.Sign(Math.Sin(100 * thickness)));
        shims[valve] = thickness;
    }

    /// <summary>A number as it is typed.</summary>
    public static string Typed(double millimetres) => millimetres.ToString("0.###", CultureInfo.InvariantCulture);
}
