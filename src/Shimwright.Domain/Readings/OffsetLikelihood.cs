using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// The likelihood of a valve's readings on its grid under every offset of the check. Offsets that do the same to this valve
/// are one state. Beyond a stretch of the grid the likelihood no longer changes; only the stretch is tabulated.
/// </summary>
internal sealed class OffsetLikelihood
{
    private const double OnGrid = 1e-6;

    /// <summary>To so many digits of a millimetre two sums of offsets are the same.</summary>
    private const int Digits = 13;

    private readonly int[] _stateOf;
    private readonly (double[] Table, int Start)[] _slices;

    public OffsetLikelihood(UniformGrid grid, Likelihood likelihood, Engines.ThermalShift shift, CheckOffsets offsets)
    {
        (double Trials, double Others)[] moves = [.. offsets.All.Select(o => (
            likelihood.HasTrials ? Math.Round(o.Fingers + (shift.IsKnown ? 0 : o.Heat), Digits) : 0,
            likelihood.HasOthers && !shift.IsKnown ? o.Heat : 0))];
        (double Trials, double Others)[] states = [.. moves.Distinct()];
        Dictionary<(double, double), int> places = states.Index().ToDictionary(s => s.Item, s => s.Index);
        _stateOf = Array.ConvertAll(moves, m => places[m]);
        double widest = moves.Max(m => Math.Max(Math.Abs(m.Trials), Math.Abs(m.Others)));
        int spare = (int)Math.Ceiling(widest / grid.Step) + 1;
        First = (int)Math.Clamp(Math.Floor(grid.Position(likelihood.From - shift.Millimetres)) - spare, 0, grid.Count);
        Last = (int)Math.Clamp(Math.Ceiling(grid.Position(likelihood.To - shift.Millimetres)) + spare, -1, grid.Count - 1);
        if (Last < First)
        {
            // Nothing was read, or nothing that this grid could tell apart: one point stands for all.
            (First, Last) = (0, 0);
        }

        double[] at = new double[Last - First + 1];
        for (int i = 0; i < at.Length; i++)
        {
            at[i] = grid.At(First + i) + shift.Millimetres;
        }

        bool slides = !likelihood.HasOthers && states.All(s => IsWhole(s.Trials / grid.Step));
        (_slices, Peak) = slides ? Slide(grid.Step, at, likelihood, states) : Each(grid.Step, at, likelihood, states);
    }

    /// <summary>ln of what the tables were divided by: the greatest chance of the readings anywhere.</summary>
    public double Peak { get; }

    /// <summary>The first and last grid point between which the likelihood changes.</summary>
    public int First { get; }

    /// <summary>The last of them.</summary>
    public int Last { get; }

    /// <summary>How many states there are.</summary>
    public int States => _slices.Length;

    /// <summary>The state of an offset, by its number.</summary>
    public int StateOf(int offset) => _stateOf[offset];

    /// <summary>The likelihood in a state at the grid points from first to last.</summary>
    public ReadOnlySpan<double> Of(int state) => _slices[state].Table.AsSpan(_slices[state].Start, Last - First + 1);

    /// <summary>The likelihood in a state at any grid point.</summary>
    public double At(int state, int point) => Of(state)[Math.Clamp(point, First, Last) - First];

    private static bool IsWhole(double x) => Math.Abs(x - Math.Round(x)) < OnGrid;

    /// <summary>One table along which the offsets slide.</summary>
    private static ((double[] Table, int Start)[] Slices, double Peak) Slide(
        double step, double[] at, Likelihood likelihood, (double Trials, double Others)[] states)
    {
        (double[] table, int[] starts) = LogOfTrials(step, at, likelihood, states);
        double peak = table.Max();
        Likelihood.Raise(table, peak);
        return (Array.ConvertAll(starts, s => (table, s)), peak);
    }

    /// <summary>The logarithms of the trials in every state, each a piece of one table.</summary>
    private static double[][] Slid(double step, double[] at, Likelihood likelihood, (double Trials, double Others)[] states)
    {
        (double[] table, int[] starts) = LogOfTrials(step, at, likelihood, states);
        return Array.ConvertAll(starts, s => table[s..(s + at.Length)]);
    }

    private static (double[] Table, int[] Starts) LogOfTrials(double step, double[] at, Likelihood likelihood, (double Trials, double Others)[] states)
    {
        int[] steps = Array.ConvertAll(states, s => (int)Math.Round(s.Trials / step));
        int least = steps.Min();
        double[] table = new double[at.Length + steps.Max() - least];
        for (int i = 0; i < table.Length; i++)
        {
            table[i] = likelihood.LogOfTrials(at[0] + ((i + least) * step));
        }

        return (table, Array.ConvertAll(steps, s => s - least));
    }

    /// <summary>A table for every state.</summary>
    private static ((double[] Table, int Start)[] Slices, double Peak) Each(
        double step, double[] at, Likelihood likelihood, (double Trials, double Others)[] states)
    {
        double[][] trials = likelihood.HasTrials && states.All(s => IsWhole(s.Trials / step))
            ? Slid(step, at, likelihood, states)
            : Distinct(states, s => s.Trials, at, likelihood.LogOfTrials);
        double[][] others = Distinct(states, s => s.Others, at, likelihood.LogOfOthers);
        double[][] tables = [.. trials.Zip(others, Sum)];
        double peak = tables.Max(t => t.Max());
        foreach (double[] table in tables)
        {
            Likelihood.Raise(table, peak);
        }

        return (Array.ConvertAll(tables, t => (t, 0)), peak);
    }

    private static double[] Sum(double[] a, double[] b)
    {
        double[] sum = new double[a.Length];
        for (int i = 0; i < sum.Length; i++)
        {
            sum[i] = a[i] + b[i];
        }

        return sum;
    }

    /// <summary>For every state the logarithms at its move; moves that occur twice are tabulated once.</summary>
    private static double[][] Distinct(
        (double Trials, double Others)[] states, Func<(double Trials, double Others), double> moveOf, double[] at, Func<double, double> log)
    {
        Dictionary<double, double[]> known = [];
        return Array.ConvertAll(states, s =>
        {
            double move = moveOf(s);
            if (!known.TryGetValue(move, out double[]? table))
            {
                known.Add(move, table = Array.ConvertAll(at, gap => log(gap + move)));
            }

            return table;
        });
    }
}
