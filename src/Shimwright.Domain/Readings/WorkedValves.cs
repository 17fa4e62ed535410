using System.Collections;

namespace Shimwright.Domain.Readings;

/// <summary>Distributions of which each is worked out when it is first asked for.</summary>
internal sealed class WorkedValves(int count, Func<int, ClearanceDistribution> work) : IReadOnlyList<ClearanceDistribution>
{
    private readonly ClearanceDistribution?[] _worked = new ClearanceDistribution?[count];

    public int Count => _worked.Length;

    public ClearanceDistribution this[int index] => _worked[index] ??= work(index);

    public IEnumerator<ClearanceDistribution> GetEnumerator() => Enumerable.Range(0, Count).Select(v => this[v]).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
