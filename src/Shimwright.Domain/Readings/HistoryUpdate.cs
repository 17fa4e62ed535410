using Shimwright.Domain.Engines;
using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What a check says of a valve whose past is known: (1 - w)·N(mean, sd²) + w·(a valve whose past is unknown), times the
/// likelihood of the readings, on a grid. Tables are kept from check to check; the fingers must be the same at all of them.
/// </summary>
internal sealed class HistoryUpdate(Resolution resolution, FeelProfile feel, double strayWeight, GapSense sense = GapSense.Opening)
{
    private const double Sigmas = 8;

    /// <summary>How far from the middle of its band a forecast counts, mm: no valve stands further out.</summary>
    private const double FarthestForecast = 5;

    private readonly Dictionary<(ClearanceBand Band, LossPrior Loss), SingleValvePrior> _priors = [];
    private double[] _weights = [];

    /// <summary>Mean and variance of the clearance, mm and mm².</summary>
    public (double Mean, double Variance) Moments(
        ExpectedClearance expected, ValveReadings readings, ThermalShift thermal, ClearanceBand band, LossPrior loss)
    {
        expected = Counted(expected);
        SingleValvePrior prior = PriorFor(expected, readings, band, loss);
        UniformGrid grid = prior.Grid;
        Array.Resize(ref _weights, Math.Max(_weights.Length, grid.Count));
        Span<double> weights = _weights.AsSpan(0, grid.Count);
        weights.Clear();
        prior.AddLogLikelihood(weights, readings, thermal, feel, resolution);
        if (strayWeight == 0)
        {
            AddLogForecast(weights, grid, expected);
            Likelihood.Raise(weights);
        }
        else
        {
            Likelihood.Raise(weights);
            TimesMixture(weights, prior, expected);
        }

        return MomentsOf(weights, grid);
    }

    /// <summary>What is expected before the readings, on a grid that is fine enough for them.</summary>
    public ClearancePrior Prior(ExpectedClearance expected, ValveReadings readings, ClearanceBand band, LossPrior loss)
    {
        expected = Counted(expected);
        SingleValvePrior unknown = PriorFor(expected, readings, band, loss);
        double[] smooth = new double[unknown.Grid.Count];
        double[] stray = new double[smooth.Length];
        Array.Fill(stray, strayWeight * SingleValvePrior.StrayDensity);
        for (int i = 0; i < smooth.Length; i++)
        {
            double forecast = StandardNormal.Density((unknown.Grid.At(i) - expected.Mean) / expected.StandardDeviation) / expected.StandardDeviation;
            smooth[i] = ((1 - strayWeight) * forecast) + (strayWeight * unknown.Smooth[i]);
        }

        return ClearancePrior.Of(unknown.Grid, band, smooth, stray);
    }

    /// <summary>The unknown valve on a grid that is wide and fine enough for this forecast and these readings.</summary>
    private SingleValvePrior PriorFor(ExpectedClearance expected, ValveReadings readings, ClearanceBand band, LossPrior loss)
    {
        double reading = resolution.Counted(feel.FinestScale(readings));
        double scale = 1 / Math.Sqrt((1 / Squares.Of(expected.StandardDeviation)) + (1 / Squares.Of(reading)));
        Resolution needed = resolution.FineEnoughFor(scale);
        if (!_priors.TryGetValue((band, loss), out SingleValvePrior? prior))
        {
            prior = new SingleValvePrior(band, loss, resolution, sense);
            _priors.Add((band, loss), prior);
        }

        if (needed.Step < resolution.Step)
        {
            prior = new SingleValvePrior(band, loss, needed, sense);
        }

        double reach = Sigmas * expected.StandardDeviation;
        return prior.Reaching(
            Math.Max(band.Middle - FarthestForecast, expected.Mean - reach),
            Math.Min(band.Middle + FarthestForecast, expected.Mean + reach));
    }

    /// <summary>Over how many millimetres a valve is looked for, at most.</summary>
    public static double ReachOf(ExpectedClearance expected, ClearanceBand band, LossPrior loss) =>
        LossTable.ReachOf(band.Width, loss) + Math.Min(2 * FarthestForecast, 2 * Sigmas * expected.StandardDeviation);

    private ExpectedClearance Counted(ExpectedClearance expected) =>
        expected.StandardDeviation < resolution.Floor ? new(expected.Mean, resolution.Floor) : expected;

    private static void AddLogForecast(Span<double> log, UniformGrid grid, ExpectedClearance expected)
    {
        for (int i = 0; i < log.Length; i++)
        {
            log[i] -= 0.5 * Squares.Of((grid.At(i) - expected.Mean) / expected.StandardDeviation);
        }
    }

    private void TimesMixture(Span<double> weights, SingleValvePrior prior, ExpectedClearance expected)
    {
        UniformGrid grid = prior.Grid;
        double sd = expected.StandardDeviation;
        int first = (int)Math.Clamp(grid.Position(expected.Mean - (Sigmas * sd)), 0, grid.Count);
        int last = (int)Math.Clamp(grid.Position(expected.Mean + (Sigmas * sd)) + 1, 0, grid.Count);
        double factor = (1 - strayWeight) * grid.Step / sd;
        for (int i = 0; i < weights.Length; i++)
        {
            double mass = strayWeight * prior.Mass[i];
            if (i >= first && i < last)
            {
                mass += factor * StandardNormal.Density((grid.At(i) - expected.Mean) / sd);
            }

            weights[i] *= mass;
        }
    }

    private static (double Mean, double Variance) MomentsOf(ReadOnlySpan<double> weights, UniformGrid grid)
    {
        double total = 0, first = 0;
        for (int i = 0; i < weights.Length; i++)
        {
            total += weights[i];
            first += weights[i] * i;
        }

        double at = first / total;
        double second = 0;
        for (int i = 0; i < weights.Length; i++)
        {
            second += weights[i] * Squares.Of(i - at);
        }

        return (grid.Start + (at * grid.Step), second / total * Squares.Of(grid.Step));
    }
}
