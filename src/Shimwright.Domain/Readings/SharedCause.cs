using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Readings;

/// <summary>
/// What the valves of one check say together about what moves them together: the loss that they share, and what all readings
/// of the check are off by. Two hypotheses, equally likely before the readings: one cause moved all valves, or each side has
/// its own. Valves that share no loss tell of the offsets only.
/// </summary>
internal sealed class SharedCause
{
    private const double Even = 0.5;

    private readonly IReadOnlyList<Valve> _valves;
    private readonly IReadOnlyList<ValveEvidence> _evidence;
    private readonly int _losses;
    private readonly int _offsets;
    private readonly double[] _together;
    private readonly double[] _offsetApart;
    private readonly Dictionary<ValveSide, double[]> _bySide = [];

    public SharedCause(IReadOnlyList<Valve> valves, IReadOnlyList<ValveEvidence> evidence, double[] logLosses, CheckOffsets offsets)
    {
        (_valves, _evidence, _losses, _offsets) = (valves, evidence, logLosses.Length, offsets.All.Count);
        double[] alone = new double[_offsets];
        Dictionary<ValveSide, double[]> sides = [];
        for (int v = 0; v < valves.Count; v++)
        {
            if (evidence[v].IsShared)
            {
                Add(sides.TryGetValue(valves[v].Side, out double[]? side) ? side : sides[valves[v].Side] = new double[_offsets * _losses], v);
            }
            else
            {
                AddAlone(alone, v);
            }
        }

        double[][] logs = [.. sides.Values];
        double[] together = new double[_offsets * _losses];
        double[] apart = [.. offsets.All.Select((o, n) => o.LogWeight + alone[n])];
        for (int n = 0; n < _offsets; n++)
        {
            for (int k = 0; k < _losses; k++)
            {
                double all = 0;
                foreach (double[] log in logs)
                {
                    all += log[(n * _losses) + k];
                }

                together[(n * _losses) + k] = offsets.All[n].LogWeight + alone[n] + logLosses[k] + all;
            }

            foreach (double[] log in logs)
            {
                apart[n] += Normalise(log.AsSpan(n * _losses, _losses), logLosses);
            }
        }

        _bySide = sides;
        double logTogether = Normalise(together, []);
        double logApart = Normalise(apart, []);
        (_together, _offsetApart) = (together, apart);
        LogEvidence = sides.Count < 2 ? logTogether : Math.Max(logTogether, logApart) + Math.Log(Even * (1 + Math.Exp(-Math.Abs(logTogether - logApart))));
        SharedCauseProbability = sides.Count < 2 ? Even : 1 / (1 + Math.Exp(logApart - logTogether));
    }

    /// <summary>ln of the chance of all readings, up to what the valves' evidence lacks.</summary>
    public double LogEvidence { get; }

    /// <summary>The weight of one cause after the readings; 0.5 where one side or none shares a loss.</summary>
    public double SharedCauseProbability { get; }

    /// <summary>The weight of each place of a valve, over both hypotheses.</summary>
    public double[] Marginal(int valve)
    {
        ValveEvidence evidence = _evidence[valve];
        double[] weights = new double[evidence.Evidence.Length];
        double apart = 1 - SharedCauseProbability;
        for (int n = 0; n < _offsets; n++)
        {
            int place = evidence.StateOf(n) * evidence.Losses;
            if (!evidence.IsShared)
            {
                weights[place] += (SharedCauseProbability * Mass(_together, n)) + (apart * _offsetApart[n]);
                continue;
            }

            double[] side = _bySide[_valves[valve].Side];
            for (int k = 0; k < _losses; k++)
            {
                int at = (n * _losses) + k;
                weights[place + k] += (SharedCauseProbability * _together[at]) + (apart * _offsetApart[n] * side[at]);
            }
        }

        return weights;
    }

    /// <summary>
    /// The chance that all of some valves are in band, given for each valve the chance at each of its places;
    /// null leaves a valve out.
    /// </summary>
    public double ChanceOfAll(IReadOnlyList<double[]?> chances)
    {
        double together = 0, apart = 0;
        double[] all = new double[_losses];
        double[] side = new double[_losses];
        for (int n = 0; n < _offsets; n++)
        {
            Array.Fill(all, Alone(chances, n));
            double sides = all[0];
            foreach ((ValveSide which, double[] weights) in _bySide)
            {
                Array.Fill(side, 1);
                Multiply(side, chances, n, which);
                double mean = 0;
                for (int k = 0; k < _losses; k++)
                {
                    all[k] *= side[k];
                    mean += weights[(n * _losses) + k] * side[k];
                }

                sides *= mean;
            }

            for (int k = 0; k < _losses; k++)
            {
                together += _together[(n * _losses) + k] * all[k];
            }

            apart += _offsetApart[n] * sides;
        }

        return Math.Clamp((SharedCauseProbability * together) + ((1 - SharedCauseProbability) * apart), 0, 1);
    }

    private double Alone(IReadOnlyList<double[]?> chances, int offset)
    {
        double product = 1;
        for (int v = 0; v < chances.Count; v++)
        {
            product *= _evidence[v].IsShared || chances[v] is not { } chance ? 1 : chance[_evidence[v].StateOf(offset)];
        }

        return product;
    }

    private void Multiply(double[] product, IReadOnlyList<double[]?> chances, int offset, ValveSide side)
    {
        for (int v = 0; v < chances.Count; v++)
        {
            if (_valves[v].Side == side && _evidence[v].IsShared && chances[v] is { } chance)
            {
                int place = _evidence[v].StateOf(offset) * _losses;
                for (int k = 0; k < _losses; k++)
                {
                    product[k] *= chance[place + k];
                }
            }
        }
    }

    private double Mass(double[] weights, int offset)
    {
        double sum = 0;
        for (int k = 0; k < _losses; k++)
        {
            sum += weights[(offset * _losses) + k];
        }

        return sum;
    }

    private void Add(double[] log, int valve)
    {
        double[] evidence = _evidence[valve].LogEvidence;
        for (int n = 0; n < _offsets; n++)
        {
            int place = _evidence[valve].StateOf(n) * _losses;
            for (int k = 0; k < _losses; k++)
            {
                log[(n * _losses) + k] += evidence[place + k];
            }
        }
    }

    private void AddAlone(double[] log, int valve)
    {
        double[] evidence = _evidence[valve].LogEvidence;
        for (int n = 0; n < _offsets; n++)
        {
            log[n] += evidence[_evidence[valve].StateOf(n)];
        }
    }

    /// <summary>From logarithms, with others added, to weights that add up to 1; returns ln of what they added up to.</summary>
    private static double Normalise(Span<double> log, ReadOnlySpan<double> added)
    {
        double peak = double.NegativeInfinity;
        for (int i = 0; i < log.Length; i++)
        {
            log[i] += added.IsEmpty ? 0 : added[i];
            peak = Math.Max(peak, log[i]);
        }

        double total = 0;
        for (int i = 0; i < log.Length; i++)
        {
            log[i] = Math.Exp(log[i] - peak);
            total += log[i];
        }

        for (int i = 0; i < log.Length; i++)
        {
            log[i] /= total;
        }

        return peak + Math.Log(total);
    }
}
