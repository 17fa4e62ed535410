using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// One valve's readings against every shared loss and every offset of the check: how well each explains them, and what the
/// clearance is where it is true. Places are numbered state by state, and loss by loss within a state.
/// </summary>
internal sealed class ValveEvidence
{
    private readonly ClearancePrior _prior;
    private readonly OffsetLikelihood _likelihood;
    private readonly double[] _evidence;
    private double[]? _logEvidence;

    public ValveEvidence(ClearancePrior prior, OffsetLikelihood likelihood)
    {
        _prior = prior;
        _likelihood = likelihood;
        (double[] below, double[] above) = prior.SumsBeyond(likelihood.First, likelihood.Last);
        double strayBelow = ClearancePrior.Sum(prior.StrayMass, 0, likelihood.First);
        double strayAbove = ClearancePrior.Sum(prior.StrayMass, likelihood.Last + 1, prior.StrayMass.Length);
        _evidence = new double[likelihood.States * Losses];
        for (int s = 0; s < likelihood.States; s++)
        {
            ReadOnlySpan<double> chance = likelihood.Of(s);
            double stray = (chance[0] * strayBelow)
                + VectorMath.Dot(prior.StrayMass.AsSpan(likelihood.First), chance)
                + (chance[^1] * strayAbove);
            for (int k = 0; k < Losses; k++)
            {
                double smooth = (chance[0] * below[k]) + VectorMath.Dot(prior.Rows[k].AsSpan(likelihood.First), chance) + (chance[^1] * above[k]);
                _evidence[(s * Losses) + k] = (prior.RowShare * prior.Grid.Step * smooth) + stray;
            }
        }
    }

    /// <summary>ln of the factor that the evidence lacks.</summary>
    public double Peak => _likelihood.Peak;

    /// <summary>The same valve with other readings.</summary>
    public ValveEvidence With(Likelihood readings, Engines.ThermalShift shift, CheckOffsets offsets) =>
        new(_prior, new OffsetLikelihood(_prior.Grid, readings, shift, offsets));

    /// <summary>How many shared losses tell on this valve: 1 where it shares none.</summary>
    public int Losses => _prior.Rows.Length;

    /// <summary>Whether the valve shares a loss with others.</summary>
    public bool IsShared => _prior.IsShared;

    /// <summary>The chance of the readings at each place, up to a factor that is the same for all.</summary>
    public ReadOnlySpan<double> Evidence => _evidence;

    /// <summary>The logarithms of that.</summary>
    public double[] LogEvidence => _logEvidence ??= Array.ConvertAll(_evidence, Math.Log);

    /// <summary>The state in which an offset of the check puts this valve.</summary>
    public int StateOf(int offset) => _likelihood.StateOf(offset);

    /// <summary>The clearance averaged over the places with these weights.</summary>
    public ClearanceDistribution Average(ReadOnlySpan<double> weights)
    {
        double[] smooth = new double[_prior.Grid.Count];
        double[] stray = new double[smooth.Length];
        double[] below = new double[Losses];
        double[] above = new double[Losses];
        double[] mixed = new double[_likelihood.Last - _likelihood.First + 1];
        double strayBelow = 0, strayAbove = 0;
        for (int s = 0; s < _likelihood.States; s++)
        {
            ReadOnlySpan<double> chance = _likelihood.Of(s);
            Array.Clear(mixed);
            double total = 0;
            for (int k = 0; k < Losses; k++)
            {
                double factor = weights[(s * Losses) + k] / _evidence[(s * Losses) + k];
                total += factor;
                below[k] += factor * chance[0];
                above[k] += factor * chance[^1];
                if (factor > 0)
                {
                    VectorMath.AddScaled(mixed, _prior.Rows[k].AsSpan(_likelihood.First), factor);
                }
            }

            for (int i = 0; i < mixed.Length; i++)
            {
                smooth[_likelihood.First + i] += mixed[i] * chance[i];
                stray[_likelihood.First + i] += total * chance[i];
            }

            strayBelow += total * chance[0];
            strayAbove += total * chance[^1];
        }

        Fill(smooth.AsSpan(0, _likelihood.First), 0, below);
        Fill(smooth.AsSpan(_likelihood.Last + 1), _likelihood.Last + 1, above);
        stray.AsSpan(0, _likelihood.First).Fill(strayBelow);
        stray.AsSpan(_likelihood.Last + 1).Fill(strayAbove);
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] *= _prior.RowShare;
            stray[i] *= _prior.Stray[i];
        }

        return new ClearanceDistribution(_prior.Grid, _prior.Band, smooth, stray, _prior.StrayWeights);
    }

    /// <summary>At each place, the chance that the valve is in its band as it stands; where weights are given, that it stays there.</summary>
    public double[] InBandGivenCause(SurvivalWeights? staying)
    {
        if (staying is not null)
        {
            return Conditional((double[])staying.Smooth.Clone(), (double[])staying.Stray.Clone());
        }

        Engines.ClearanceBand band = _prior.Band;
        double[] smooth = CubicRule.Weights(_prior.Grid, band.Low, band.High);
        double[] stray = CubicRule.Weights(
            _prior.Grid,
            Math.Max(band.Low, band.Middle - LossPrior.StrayReach),
            Math.Min(band.High, band.Middle + LossPrior.StrayReach));
        return Conditional(smooth, stray);
    }

    /// <summary>At each place, the chance of landing in the band; chances are those at each grid point.</summary>
    public double[] LandingGivenCause(ReadOnlySpan<double> chances)
    {
        double[] smooth = new double[_prior.Grid.Count];
        double[] stray = (double[])_prior.StrayWeights.Clone();
        for (int i = 0; i < smooth.Length; i++)
        {
            smooth[i] = chances[i] * _prior.Grid.Step;
            stray[i] *= chances[i];
        }

        return Conditional(smooth, stray);
    }

    /// <summary>The mean over the distribution at each place of a function that is given by its weights on the grid.</summary>
    private double[] Conditional(double[] smooth, double[] stray)
    {
        (int first, int last) = Support(smooth, stray);
        double[] chances = new double[_evidence.Length];
        double[] weighted = new double[last - first + 1];
        for (int s = 0; s < _likelihood.States; s++)
        {
            ReadOnlySpan<double> chance = _likelihood.Of(s);
            double strayPart = 0;
            for (int i = 0; i < weighted.Length; i++)
            {
                double likelihood = chance[Math.Clamp(first + i, _likelihood.First, _likelihood.Last) - _likelihood.First];
                weighted[i] = smooth[first + i] * likelihood * _prior.RowShare;
                strayPart += stray[first + i] * _prior.Stray[first + i] * likelihood;
            }

            for (int k = 0; k < Losses; k++)
            {
                int place = (s * Losses) + k;
                double joint = VectorMath.Dot(_prior.Rows[k].AsSpan(first), weighted) + strayPart;
                chances[place] = Math.Clamp(joint / _evidence[place], 0, 1);
            }
        }

        return chances;
    }

    private static (int First, int Last) Support(double[] smooth, double[] stray)
    {
        int first = 0, last = smooth.Length - 1;
        while (first < last && smooth[first] == 0 && stray[first] == 0)
        {
            first++;
        }

        while (last > first && smooth[last] == 0 && stray[last] == 0)
        {
            last--;
        }

        return (first, last);
    }

    private void Fill(Span<double> into, int from, double[] factors)
    {
        for (int k = 0; k < Losses; k++)
        {
            if (factors[k] > 0)
            {
                VectorMath.AddScaled(into, _prior.Rows[k].AsSpan(from), factors[k]);
            }
        }
    }
}
