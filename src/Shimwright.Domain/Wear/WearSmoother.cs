namespace Shimwright.Domain.Wear;

/// <summary>
/// What all checks together say about a valve at each of them: the picture of its past, as it looks from today. Fixed-interval
/// smoothing (H. E. Rauch, F. Tung and C. T. Striebel, AIAA Journal 3 (1965) 1445) on the moments of the filter.
/// </summary>
public static class WearSmoother
{
    /// <summary>Smooths every valve of an engine.</summary>
    /// <param name="wear">What the filter found.</param>
    /// <returns>For each valve, in the engine's order, its state at each check as found, before the changes made then.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="wear"/> is null.</exception>
    public static IReadOnlyList<IReadOnlyList<WearState>> Smooth(EngineWear wear)
    {
        ArgumentNullException.ThrowIfNull(wear);
        return [.. wear.Valves.Select(Smooth)];
    }

    private static IReadOnlyList<WearState> Smooth(IReadOnlyList<WearPoint> points)
    {
        var states = new WearState[points.Count];
        states[^1] = points[^1].Found;
        for (int k = points.Count - 2; k >= 0; k--)
        {
            states[k] = Step(points[k], points[k + 1], states[k + 1]);
        }

        return states;
    }

    /// <summary>One step back: what is now known of the next check corrects this one by the regression of the one on the other.</summary>
    private static WearState Step(WearPoint here, WearPoint next, WearState nextSmoothed)
    {
        WearState p = here.Found;
        WearState f = next.Predicted;
        double time = next.Clock - here.Clock;

        // Covariances of (c, r) here with (c, r) at the next check; setting a screw cuts c here off from everything later.
        double cc = here.WasSet ? -time * p.Covariance : p.ClearanceVariance - (time * p.Covariance);
        double cr = p.Covariance;
        double rc = here.WasSet ? -time * p.RateVariance : p.Covariance - (time * p.RateVariance);
        double rr = p.RateVariance;
        (double gcc, double gcr) = Regress(cc, cr, f);
        (double grc, double grr) = Regress(rc, rr, f);

        double dc = nextSmoothed.Clearance - f.Clearance;
        double dr = nextSmoothed.Rate - f.Rate;
        double vcc = nextSmoothed.ClearanceVariance - f.ClearanceVariance;
        double vcr = nextSmoothed.Covariance - f.Covariance;
        double vrr = nextSmoothed.RateVariance - f.RateVariance;
        return new(
            p.Clearance + (gcc * dc) + (gcr * dr),
            p.Rate + (grc * dc) + (grr * dr),
            p.ClearanceVariance + Form(gcc, gcr, gcc, gcr),
            p.Covariance + Form(gcc, gcr, grc, grr),
            p.RateVariance + Form(grc, grr, grc, grr));

        double Form(double a, double b, double c, double d) => (a * c * vcc) + (((a * d) + (b * c)) * vcr) + (b * d * vrr);
    }

    /// <summary>The row (x, y) times the inverse of the predicted covariance; without the rate where that is known exactly.</summary>
    private static (double C, double R) Regress(double x, double y, WearState f)
    {
        double determinant = (f.ClearanceVariance * f.RateVariance) - (f.Covariance * f.Covariance);
        if (!(determinant > 1e-14 * f.ClearanceVariance * f.RateVariance))
        {
            return f.ClearanceVariance > 0 ? (x / f.ClearanceVariance, 0) : (0, 0);
        }

        return (
            ((x * f.RateVariance) - (y * f.Covariance)) / determinant,
            ((y * f.ClearanceVariance) - (x * f.Covariance)) / determinant);
    }
}
