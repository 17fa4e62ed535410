namespace Shimwright.Domain.Planning;

/// <summary>The arcs of a sparse assignment, row after row, in buffers that are used again for the next one.</summary>
internal sealed class ArcList
{
    private int[] _columns = new int[1024];
    private Int128[] _costs = new Int128[1024];
    private ValveOption[] _options = new ValveOption[1024];

    public int Count { get; private set; }

    public ReadOnlySpan<int> Columns => _columns.AsSpan(0, Count);

    public ReadOnlySpan<Int128> Costs => _costs.AsSpan(0, Count);

    public ValveOption OptionOf(int arc) => _options[arc];

    public void Clear() => Count = 0;

    public void Add(int column, Int128 cost, ValveOption option)
    {
        if (Count == _columns.Length)
        {
            Array.Resize(ref _columns, 2 * Count);
            Array.Resize(ref _costs, 2 * Count);
            Array.Resize(ref _options, 2 * Count);
        }

        _columns[Count] = column;
        _costs[Count] = cost;
        _options[Count] = option;
        Count++;
    }
}
