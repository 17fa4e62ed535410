using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Readings;

/// <summary>
/// Where a clearance may be, for sums over what changes slowly: the grid points themselves, or where those are very many, several
/// neighbours as one place, without the ends in which there is next to nothing.
/// </summary>
internal sealed class Places
{
    private const double Negligible = 1e-12;

    private readonly UniformGrid _grid;
    private readonly int _first;
    private readonly int _size;

    /// <summary>The places of a distribution.</summary>
    /// <param name="valve">The distribution.</param>
    /// <param name="most">How many there may be, about.</param>
    public Places(ClearanceDistribution valve, int most)
    {
        _grid = valve.Grid;
        (_first, _size, Count) = (0, 1, _grid.Count);
        if (_grid.Count <= most)
        {
            return;
        }

        int last = _grid.Count - 1;
        while (valve.MassOfPoints(0, _first) < Negligible && _first < last)
        {
            _first++;
        }

        while (valve.MassOfPoints(last, _grid.Count - 1) < Negligible && last > _first)
        {
            last--;
        }

        int points = last - _first + 1;
        _size = ((points - 1) / most) + 1;
        Count = ((points - 1) / _size) + 1;
    }

    /// <summary>How many there are.</summary>
    public int Count { get; }

    /// <summary>The clearance of a place, mm.</summary>
    public double At(int place) => _grid.At(_first) + (((place * _size) + ((_size - 1) / 2.0)) * _grid.Step);

    /// <summary>What lies at each place of something that lies on the grid.</summary>
    public double[] Sums(ReadOnlySpan<double> onGrid)
    {
        double[] sums = new double[Count];
        for (int k = 0; k < Count; k++)
        {
            int from = _first + (k * _size);
            int to = Math.Min(from + _size, _grid.Count);
            for (int i = from; i < to; i++)
            {
                sums[k] += onGrid[i];
            }
        }

        return sums;
    }
}
