using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>
/// The chance that a valve has left its band by a time, its clearance and its rate uncertain: the first passage integrated
/// over both. A valve that loses clearance leaves below, one that gains leaves above, so the integrand jumps at rate 0 and
/// at the limits; each piece gets a Gauss-Legendre rule that follows its bends. Within 0.0005 of a slow sum (see the tests).
/// </summary>
internal readonly struct PassageRisk
{
    private const double Sigmas = 6;
    private const double Negligible = 1e-12;
    private readonly ClearanceBand _band;
    private readonly double _time;
    private readonly double _root;

    public PassageRisk(ClearanceBand band, double diffusion, double time)
    {
        _band = band;
        _time = time;
        _root = Math.Sqrt(diffusion * time);
    }

    /// <summary>The chance that a valve in this state is outside now, or will have been by the time.</summary>
    public static double Chance(WearState state, ClearanceBand band, double diffusion, double time)
    {
        double sd = Math.Max(Negligible, state.ClearanceSpread);
        double inside = StandardNormal.Between((band.Low - state.Clearance) / sd, (band.High - state.Clearance) / sd);
        double low = Math.Max(band.Low, state.Clearance - (Sigmas * sd));
        double high = Math.Min(band.High, state.Clearance + (Sigmas * sd));
        if (!(diffusion * time > 0) || !(high > low))
        {
            return 1 - inside;
        }

        var risk = new PassageRisk(band, diffusion, time);
        double leaves = 0;
        GaussRule rule = GaussRule.For(high - low, Math.Min(sd, risk._root));
        for (int i = 0; i < rule.Order; i++)
        {
            (double c, double weight) = rule.At(i, low, high);
            double rate = state.Rate + (state.RatePerClearance * (c - state.Clearance));
            leaves += weight * StandardNormal.Density((c - state.Clearance) / sd) / sd
                * risk.LeavesFrom(c, rate, state.RateSpreadGivenClearance);
        }

        return Math.Clamp(1 - inside + leaves, 0, 1);
    }

    /// <summary>The chance to leave the band from a clearance in it, where the rate is N(mean, spread²).</summary>
    public double LeavesFrom(double clearance, double mean, double spread)
    {
        if (spread * _time < Negligible)
        {
            return ExitChance(clearance, mean);
        }

        double reach = Sigmas * spread;
        return Piece(clearance, mean, spread, Math.Max(0, mean - reach), mean + reach)
            + Piece(clearance, mean, spread, mean - reach, Math.Min(0, mean + reach));
    }

    /// <summary>The chance to leave the band from a clearance in it at a rate: below where clearance is lost, above where it is gained.</summary>
    public double ExitChance(double clearance, double rate) => rate >= 0
        ? FirstPassage.ChanceFromTable(clearance - _band.Low, rate, _time, _root)
        : FirstPassage.ChanceFromTable(_band.High - clearance, -rate, _time, _root);

    /// <summary>Over what length of clearance the chance can change, mm.</summary>
    public double ClearanceScale => _root;

    /// <summary>Over what step of the rate the chance can change.</summary>
    public double RateScale => _root / _time;

    private double Piece(double clearance, double mean, double spread, double low, double high)
    {
        if (!(high > low))
        {
            return 0;
        }

        GaussRule rule = GaussRule.For(high - low, Math.Min(spread, RateScale));
        double sum = 0;
        for (int i = 0; i < rule.Order; i++)
        {
            (double rate, double weight) = rule.At(i, low, high);
            sum += weight * StandardNormal.Density((rate - mean) / spread) * ExitChance(clearance, rate);
        }

        return sum / spread;
    }
}
