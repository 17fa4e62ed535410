using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Wear;

namespace Shimwright.Domain.Drawer;

/// <summary>
/// What a valve will want when it is checked. Its clearance c is N(m, P) by then; a reading of standard uncertainty u leaves what
/// the check says of it, E[c | reading], which is N(m, P²/(P + u²)) as it is foreseen today, with the variance P·u²/(P + u²) left
/// over (H. Raiffa and R. Schlaifer, Applied Statistical Decision Theory, 1961, section 11.4: the preposterior law of a normal mean).
/// The shim in place stays where the chance of being in band is then at least what it has to be; else the one wanted is that which
/// brings the clearance to the middle of the band.
/// </summary>
public static class CheckWant
{
    /// <summary>Nothing is known of a clearance more closely than this, mm.</summary>
    private const double Finest = 1e-3;

    private const int Halvings = 50;

    /// <summary>What a valve will want.</summary>
    /// <param name="atCheck">The valve's state when the clock will stand at the check.</param>
    /// <param name="band">Its band.</param>
    /// <param name="leverage">ρ.</param>
    /// <param name="shim">The thickness in it as it is known, mm.</param>
    /// <param name="shimError">Standard uncertainty of that thickness against what it will be found to be, mm, 0 or more.</param>
    /// <param name="changeBelow">The chance of being in band below which it is changed, 0 to 1.</param>
    /// <param name="reading">Standard uncertainty of a reading, mm, above 0.</param>
    /// <returns>The want.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="band"/> or <paramref name="leverage"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="reading"/>, <paramref name="changeBelow"/>, <paramref name="shim"/> or <paramref name="shimError"/> is outside its range.</exception>
    public static ThicknessWant Of(WearState atCheck, ClearanceBand band, Leverage leverage, double shim, double shimError, double changeBelow, double reading)
    {
        ArgumentNullException.ThrowIfNull(band);
        ArgumentNullException.ThrowIfNull(leverage);
        Guard.Within(reading, double.Epsilon, 10);
        double before = Squares.Of(Math.Max(Finest, atCheck.ClearanceSpread));
        double sum = before + Squares.Of(reading);
        double stays = leverage.AtTheShim(StayReach(band, Math.Sqrt(before / sum) * reading, Guard.Within(changeBelow, 0, 1)));
        return new ThicknessWant(
            leverage.Wanted(shim, atCheck.Clearance, band.Middle), leverage.AtTheShim(before / Math.Sqrt(sum)), leverage.AtTheShim(band.Width / 2),
            kept: stays > 0 ? (shim - stays, shim + stays) : null, blur: shimError);
    }

    /// <summary>What valves behind one cover will want: each alone, or along with any other for which the cover comes off.</summary>
    /// <param name="valves">What each will want if it has to pay for the cover, and if it has not.</param>
    /// <returns>The wants.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="valves"/> is null.</exception>
    public static IReadOnlyList<ThicknessWant> BehindOneCover(IReadOnlyList<(ThicknessWant Alone, ThicknessWant Along)> valves)
    {
        ArgumentNullException.ThrowIfNull(valves);
        double[] stays = [.. valves.Select(v => 1 - v.Alone.Wanted)];
        return
        [
            .. valves.Select((v, i) => v.Alone.Or(v.Along, Math.Clamp(1 - stays.Where((_, k) => k != i).Aggregate(1.0, (all, s) => all * s), 0, 1))),
        ];
    }

    /// <summary>
    /// The chance of being in band below which a plan would change a valve that stood alone: where what failing costs,
    /// times the gain in chance, is more than lifting and changing cost. Never below the floor under which no valve may stay.
    /// </summary>
    /// <param name="keepFloor">The least chance with which a valve may be left alone.</param>
    /// <param name="fitted">The chance of being in band with a shim of the sizes there are.</param>
    /// <param name="change">What lifting its group, the change and the shim cost, minutes.</param>
    /// <param name="second">What failing costs: another round, lifting its group and changing it once more, minutes.</param>
    /// <returns>From 0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="keepFloor"/> is outside its range.</exception>
    public static double ChangeBelow(double keepFloor, double fitted, double change, double second) =>
        second > 0 ? Math.Clamp(Math.Max(keepFloor, fitted - (change / second)), 0, 1) : Guard.Within(keepFloor, 0, 1);

    /// <summary>The chance that a shim of the sizes there are puts a valve in band, at the usual distance of a size from what is wanted: a quarter of the step.</summary>
    /// <param name="band">The band.</param>
    /// <param name="leverage">ρ.</param>
    /// <param name="step">Distance of the sizes, mm.</param>
    /// <param name="error">Standard deviation of the gap about what was intended, mm, above 0.</param>
    /// <returns>From 0 to 1.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="band"/> or <paramref name="leverage"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="error"/> is outside its range.</exception>
    public static double Fitted(ClearanceBand band, Leverage leverage, double step, double error)
    {
        ArgumentNullException.ThrowIfNull(band);
        ArgumentNullException.ThrowIfNull(leverage);
        return Landing.InBandOff(band, leverage.AtTheGap(step) / 4, Guard.Within(error, double.Epsilon, 10));
    }

    /// <summary>How far from the middle of its band a clearance may be found and still stay, mm; 0 where it may nowhere.</summary>
    private static double StayReach(ClearanceBand band, double spread, double changeBelow)
    {
        double In(double off) => Landing.InBandOff(band, off, spread);
        if (In(0) < changeBelow)
        {
            return 0;
        }

        double inside = 0;
        double outside = (band.Width / 2) + (40 * spread);
        for (int i = 0; i < Halvings; i++)
        {
            double between = (inside + outside) / 2;
            (inside, outside) = In(between) >= changeBelow ? (between, outside) : (inside, between);
        }

        return inside;
    }
}
