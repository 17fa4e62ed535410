namespace Shimwright.Domain.Planning;

/// <summary>
/// Which access groups could change places without any plan's cost noticing: they take the same time to open, and their
/// valves, in order, carry the same thickness and may do the same things with the same chances.
/// </summary>
internal sealed class InterchangeableGroups
{
    private readonly int[] _kind;

    public InterchangeableGroups(PlanRequest request, OptionTable options, PlanLedger ledger)
    {
        int[] groupOf = ledger.GroupOf;
        _kind = new int[ledger.Access.Length];
        List<List<object>> kinds = [];
        for (int g = 0; g < _kind.Length; g++)
        {
            List<object> traits = [ledger.Access[g], ledger.Opening[g], .. Enumerable.Range(0, groupOf.Length).Where(v => groupOf[v] == g).SelectMany(v => Traits(request, options, v))];
            _kind[g] = kinds.FindIndex(k => k.SequenceEqual(traits));
            if (_kind[g] < 0)
            {
                _kind[g] = kinds.Count;
                kinds.Add(traits);
            }
        }
    }

    public bool Are(int group, int other) => _kind[group] == _kind[other];

    private static IEnumerable<object> Traits(PlanRequest request, OptionTable options, int v)
    {
        yield return options.Kept[v];
        yield return options.Seated[v];
        if (request.Fitted.Count > 0)
        {
            yield return request.Fitted[v];
        }

        // A giver is known by the thickness it carries: which of several it is does not matter.
        IEnumerable<ValveOption> all = options.Shared[v].Select(s => s.Option with { FromValve = null })
            .OrderBy(o => o.Source).ThenBy(o => o.To!.Millimetres).ThenBy(o => o.To!.By.Name, StringComparer.Ordinal)
            .Concat(options.Private[v]);
        foreach (ValveOption option in all)
        {
            yield return option;
        }
    }
}
