using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Adjusting;

/// <summary>
/// The blades of a person with which a gap is set about the middle of its band: one that is near the middle, or two on either
/// side of it inside the band, of which the one has to go in and the other must not. Common practice, no source.
/// </summary>
public sealed record SettingBlades
{
    /// <summary>How near to the middle one blade alone has to be, as a share of the band's width.</summary>
    private const double Near = 0.25;

    private SettingBlades(double blade, double? noGo)
    {
        Blade = blade;
        NoGo = noGo;
    }

    /// <summary>The blade that slides with a light drag, or, where there is another, the one that goes in; mm.</summary>
    public double Blade { get; }

    /// <summary>The blade that must not go in, mm; null where one blade does.</summary>
    public double? NoGo { get; }

    /// <summary>The blades for a band.</summary>
    /// <param name="band">The band; its middle is the target.</param>
    /// <param name="blades">The person's blades, mm.</param>
    /// <returns>One or two blades; null where the person has none.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="band"/> or <paramref name="blades"/> is null.</exception>
    public static SettingBlades? For(ClearanceBand band, IReadOnlyCollection<double> blades)
    {
        ArgumentNullException.ThrowIfNull(band);
        ArgumentNullException.ThrowIfNull(blades);
        if (blades.Count == 0)
        {
            return null;
        }

        double nearest = blades.MinBy(b => Math.Abs(b - band.Middle));
        double[] go = [.. blades.Where(b => b >= band.Low && b < band.Middle)];
        double[] noGo = [.. blades.Where(b => b > band.Middle && b <= band.High)];
        return Math.Abs(nearest - band.Middle) > Near * band.Width && go.Length > 0 && noGo.Length > 0
            ? new(go.Max(), noGo.Min())
            : new(nearest, null);
    }
}
