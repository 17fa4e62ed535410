using System.Numerics;

namespace Shimwright.Domain.Planning;

/// <summary>
/// Gives each row a column of its own at the least total cost, on a sparse rectangular matrix.
/// Shortest augmenting paths with dual prices: R. Jonker and A. Volgenant, "A shortest augmenting path algorithm
/// for dense and sparse linear assignment problems", Computing 38 (1987) 325-340, without their initialisation.
/// Exact in any ordered number type whose sums do not overflow. Reuses its buffers; not thread-safe.
/// </summary>
internal sealed class AssignmentSolver<T>
    where T : struct, INumber<T>
{
    private const int None = -1;
    private readonly T[] _price;
    private readonly T[] _distance;
    private readonly int[] _rowOfColumn;
    private readonly int[] _arcInto;
    private readonly int[] _rowBefore;
    private readonly bool[] _isReached;
    private readonly bool[] _isDone;
    private readonly List<int> _reached = [];

    public AssignmentSolver(int columns)
    {
        _price = new T[columns];
        _distance = new T[columns];
        _rowOfColumn = new int[columns];
        _arcInto = new int[columns];
        _rowBefore = new int[columns];
        _isReached = new bool[columns];
        _isDone = new bool[columns];
    }

    /// <summary>Arcs and columns looked at so far.</summary>
    public double Taken { get; private set; }

    /// <summary>
    /// Row r may take the columns <paramref name="columns"/>[starts[r]..starts[r + 1]] at the costs beside them.
    /// Returns false where some row cannot have a column; otherwise <paramref name="arcOfRow"/> holds each row's arc.
    /// </summary>
    public bool Solve(ReadOnlySpan<int> starts, ReadOnlySpan<int> columns, ReadOnlySpan<T> costs, Span<int> arcOfRow)
    {
        int rows = starts.Length - 1;
        Array.Clear(_price);
        Array.Fill(_rowOfColumn, None);
        arcOfRow.Fill(None);
        for (int row = 0; row < rows; row++)
        {
            int end = ShortestPath(row, starts, columns, costs, arcOfRow);
            if (end == None)
            {
                return false;
            }

            Augment(row, end, columns, arcOfRow);
        }

        return true;
    }

    /// <summary>The dual price of a column after the last solution, 0 or less: a row that takes it pays its cost and what others would have gained by it.</summary>
    public T Price(int column) => _price[column];

    /// <summary>Dijkstra over reduced costs from a free row to the nearest free column; adjusts the prices on the way.</summary>
    private int ShortestPath(
        int source, ReadOnlySpan<int> starts, ReadOnlySpan<int> columns, ReadOnlySpan<T> costs, Span<int> arcOfRow)
    {
        foreach (int column in _reached)
        {
            _isReached[column] = false;
            _isDone[column] = false;
        }

        _reached.Clear();
        int row = source;
        T length = T.Zero;
        while (true)
        {
            // Within the tree the row's own column has reduced cost 0: its price is read off that arc.
            Taken += starts[row + 1] - starts[row] + _reached.Count;
            T offset = row == source ? T.Zero : Reduced(arcOfRow[row], columns, costs);
            for (int arc = starts[row]; arc < starts[row + 1]; arc++)
            {
                int column = columns[arc];
                if (_isDone[column])
                {
                    continue;
                }

                T through = length + (Reduced(arc, columns, costs) - offset);
                if (!_isReached[column])
                {
                    _isReached[column] = true;
                    _reached.Add(column);
                }
                else if (through >= _distance[column])
                {
                    continue;
                }

                _distance[column] = through;
                _arcInto[column] = arc;
                _rowBefore[column] = row;
            }

            int nearest = Nearest();
            if (nearest == None)
            {
                return None;
            }

            _isDone[nearest] = true;
            length = _distance[nearest];
            if (_rowOfColumn[nearest] == None)
            {
                Reprice(length);
                return nearest;
            }

            row = _rowOfColumn[nearest];
        }
    }

    private T Reduced(int arc, ReadOnlySpan<int> columns, ReadOnlySpan<T> costs) => costs[arc] - _price[columns[arc]];

    private int Nearest()
    {
        int nearest = None;
        foreach (int column in _reached)
        {
            if (!_isDone[column] && (nearest == None || _distance[column] < _distance[nearest]))
            {
                nearest = column;
            }
        }

        return nearest;
    }

    private void Reprice(T length)
    {
        foreach (int column in _reached)
        {
            if (_isDone[column])
            {
                _price[column] += _distance[column] - length;
            }
        }
    }

    private void Augment(int source, int end, ReadOnlySpan<int> columns, Span<int> arcOfRow)
    {
        int column = end;
        while (true)
        {
            int row = _rowBefore[column];
            int previous = arcOfRow[row];
            arcOfRow[row] = _arcInto[column];
            _rowOfColumn[column] = row;
            if (row == source)
            {
                return;
            }

            column = columns[previous];
        }
    }
}
