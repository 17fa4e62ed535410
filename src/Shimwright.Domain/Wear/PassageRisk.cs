using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Wear;

/// <summary>
/// The chance that a valve has left its band by a time, its clearance and its rate uncertain: the first passage integrated
/// over both. A valve that loses clearance leaves below, one that gains leaves above, so the integrand jumps at rate 0 and
/// at the limits. Over the rate most has a closed form, the rest and the clearance get Gauss-Legendre rules that follow their bends. Within 0.0001 of a
/// slow sum (see the tests).
/// </summary>
internal readonly struct PassageRisk
{
    private const double Sigmas = 6;
    private const double Negligible = 1e-12;

    /// <summary>A chance that no answer shows.</summary>
    private const double Unseen = 1e-9;

    /// <summary>So many standard deviations away nothing is reached: 2Φ(-6.2) is below what is unseen.</summary>
    private const double FarOff = 6.2;

    /// <summary>Points a bend: 1e-6 of the chance, over clearance and over those rates that go the other way.</summary>
    private const double PerBendOfClearance = 0.6, PerBendOfRate = 0.5;

    /// <summary>Half of what e is to be raised to, with a minus, for what is unseen.</summary>
    private const double Faded = 10.5;

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

        // From further away than this no limit is reached: early on that is most of the band.
        var risk = new PassageRisk(band, diffusion, time);
        double fastest = Math.Abs(state.Rate) + Math.Abs(state.RatePerClearance * Math.Max(high - state.Clearance, state.Clearance - low));
        double reach = (fastest * time) + (FarOff * Math.Sqrt((diffusion * time) + Squares.Of(state.RateSpreadGivenClearance * time)));
        double leaves = band.Low + reach < band.High - reach
            ? risk.LeavesOutOf(state, sd, low, Math.Min(high, band.Low + reach)) + risk.LeavesOutOf(state, sd, Math.Max(low, band.High - reach), high)
            : risk.LeavesOutOf(state, sd, low, high);
        return Math.Clamp(1 - inside + leaves, 0, 1);
    }

    /// <summary>The chance that a valve lies in a part of its band and leaves the band.</summary>
    private double LeavesOutOf(WearState state, double sd, double low, double high)
    {
        if (!(high > low))
        {
            return 0;
        }

        double leaves = 0;
        GaussRule rule = GaussRule.For(high - low, Math.Min(sd, _root), PerBendOfClearance);
        for (int i = 0; i < rule.Order; i++)
        {
            (double c, double weight) = rule.At(i, low, high);
            double rate = state.Rate + (state.RatePerClearance * (c - state.Clearance));
            leaves += weight * StandardNormal.Density((c - state.Clearance) / sd) * LeavesFrom(c, rate, state.RateSpreadGivenClearance);
        }

        return leaves / sd;
    }

    /// <summary>
    /// The chance to leave the band from a clearance in it, where the rate is N(mean, spread²): as if every rate went to the limit that the mean goes
    /// to, which has a closed form, and what the rates of the other sign change in that.
    /// </summary>
    public double LeavesFrom(double clearance, double mean, double spread)
    {
        if (spread * _time < Negligible)
        {
            return ExitChance(clearance, mean);
        }

        (double near, double far) = (clearance - _band.Low, _band.High - clearance);
        if (mean < 0)
        {
            (near, far, mean) = (far, near, -mean);
        }

        return FirstPassage.ChanceFromTable(near, mean, spread, _time, _root) + OtherWay(near, far, mean, spread);
    }

    /// <summary>The chance to leave the band from a clearance in it at a rate: below where clearance is lost, above where it is gained.</summary>
    public double ExitChance(double clearance, double rate) => rate >= 0
        ? FirstPassage.ChanceFromTable(clearance - _band.Low, rate, _time, _root)
        : FirstPassage.ChanceFromTable(_band.High - clearance, -rate, _time, _root);

    /// <summary>Over what length of clearance the chance can change, mm.</summary>
    public double ClearanceScale => _root;

    /// <summary>Over what step of the rate the chance can change.</summary>
    public double RateScale => _root / _time;

    /// <summary>What the rates that go away from the near limit add at the far one, less what they were counted for at the near one.</summary>
    private double OtherWay(double near, double far, double mean, double spread)
    {
        double fastest = (Sigmas * spread) - mean;
        if (!(fastest > 0) || NormalTable.Cdf(-mean / spread) < Unseen)
        {
            return 0;
        }

        double unreached = FarOff * _root;
        // Drifting away at r the near limit is reached with no more than e^{-2rd/q}, once none but stray ones come to it.
        double lost = near < unreached ? AwayFromNear(near, mean, spread, Math.Min(fastest, Math.Max(FarOff, Faded * _root / near) * RateScale)) : 0;
        double slowest = Math.Max(0, (far - unreached) / _time);
        return slowest < fastest ? ToFar(far, mean, spread, slowest, fastest) - lost : -lost;
    }

    /// <summary>The chance to reach the near limit while drifting away from it at up to a rate: e^{-2rd/q} times that of drifting towards it.</summary>
    private double AwayFromNear(double near, double mean, double spread, double fastest)
    {
        GaussRule rule = GaussRule.For(fastest, Math.Min(spread, RateScale), PerBendOfRate);
        double fall = -2 * near * _time / (_root * _root), sum = 0;
        for (int i = 0; i < rule.Order; i++)
        {
            (double rate, double weight) = rule.At(i, 0, fastest);
            sum += weight * Math.Exp((fall * rate) - (0.5 * Squares.Of((rate + mean) / spread))) * FirstPassage.ChanceFromTable(near, rate, _time, _root);
        }

        return sum * StandardNormal.Density(0) / spread;
    }

    private double ToFar(double far, double mean, double spread, double slowest, double fastest)
    {
        GaussRule rule = GaussRule.For(fastest - slowest, Math.Min(spread, RateScale), PerBendOfRate);
        double sum = 0;
        for (int i = 0; i < rule.Order; i++)
        {
            (double rate, double weight) = rule.At(i, slowest, fastest);
            sum += weight * StandardNormal.Density((rate + mean) / spread) * FirstPassage.ChanceFromTable(far, rate, _time, _root);
        }

        return sum / spread;
    }
}
