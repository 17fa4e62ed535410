namespace Shimwright.Domain.Planning;

/// <summary>The arcs of a sparse assignment, row after row, in buffers that are used again for the next one.</summary>
internal sealed class ArcList
{
    private int[] _columns = new int[1024];
    private double[] _costs = new double[1024];
    private int[] _moves = new int[1024];

    public int Count { get; private set; }

    public ReadOnlySpan<int> Columns => _columns.AsSpan(0, Count);

    public ReadOnlySpan<double> Costs => _costs.AsSpan(0, Count);

    public int MoveOf(int arc) => _moves[arc];

    public void Clear() => Count = 0;

    public void Add(int column, double cost, int move)
    {
        if (Count == _columns.Length)
        {
            Array.Resize(ref _columns, 2 * Count);
            Array.Resize(ref _costs, 2 * Count);
            Array.Resize(ref _moves, 2 * Count);
        }

        _columns[Count] = column;
        _costs[Count] = cost;
        _moves[Count] = move;
        Count++;
    }
}
