namespace Shimwright.Domain.Planning;

/// <summary>Where the search has to end before the best plan is proven best.</summary>
internal sealed partial class PlanSearch
{
    /// <summary>How many minutes a plan that was not found may count less, where the search had to end before that was known; else 0.</summary>
    public double Unproven { get; private set; }

    /// <summary>Whether the search has taken all the steps that it may.</summary>
    public bool IsSpent => _allowance.IsSpent;

    /// <summary>Leaves it at the best plan that was met.</summary>
    private void EndAt(double bound)
    {
        if (double.IsPositiveInfinity(_pool.Least))
        {
            _pool.Meet(_least.Choice);
        }

        Unproven = Math.Max(Unproven, _pool.Least - Math.Max(bound, 0));
    }

    /// <summary>Whether each shim goes to one valve only.</summary>
    private bool IsPossible(ReadOnlySpan<int> choice)
    {
        Array.Clear(_takenBy);
        for (int v = 0; v < choice.Length; v++)
        {
            int column = choice[v] < 0 ? v : _moves[v].Columns[choice[v]];
            if (_takenBy[column]++ > 0)
            {
                return false;
            }
        }

        return true;
    }
}
