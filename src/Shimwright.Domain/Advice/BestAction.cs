namespace Shimwright.Domain.Advice;

/// <summary>
/// The best of some actions, each with what was the best so far as its bar, one after another or some side by side. Which bar an action meets
/// depends on which others are through by then; what is best does not, since only what stays below a bar that was reached is given up.
/// </summary>
internal sealed class BestAction(IReadOnlyList<Func<Bar, AdvisedAction?>> actions)
{
    private readonly Lock _lock = new();
    private readonly AdvisedAction?[] _met = new AdvisedAction?[actions.Count];
    private readonly int[] _spared = new int[actions.Count];
    private double _best;
    private int _next;

    /// <summary>The actions that were planned through to their end, in their order.</summary>
    public IEnumerable<AdvisedAction> Met => _met.OfType<AdvisedAction>();

    /// <summary>Outcomes of the actions before one that were not planned from.</summary>
    public int SparedBefore(AdvisedAction action) => _spared.Take(Array.FindIndex(_met, m => ReferenceEquals(m, action))).Sum();

    /// <summary>Plans all of them through, as far as they can be the best.</summary>
    /// <param name="atOnce">How many side by side.</param>
    public void Find(int atOnce)
    {
        if (atOnce == 1)
        {
            Work();
        }
        else
        {
            Parallel.Invoke([.. Enumerable.Repeat(Work, Math.Min(atOnce, actions.Count))]);
        }
    }

    private void Work()
    {
        while (Take() is var (place, bar))
        {
            AdvisedAction? met = actions[place](bar);
            lock (_lock)
            {
                (_met[place], _spared[place]) = (met, bar.Spared);
                _best = Math.Max(_best, met?.Net ?? 0);
            }
        }
    }

    private (int Place, Bar Bar)? Take()
    {
        lock (_lock)
        {
            return _next < actions.Count ? (_next++, new Bar(_best)) : null;
        }
    }
}
