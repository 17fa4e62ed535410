namespace Shimwright.Domain.Planning;

/// <summary>A part of all plans: what is settled about the groups, and between what doubts of each group and of all it lies.</summary>
internal sealed class SearchNode
{
    /// <summary>Nothing is settled about a group.</summary>
    public const int Undecided = -3;

    /// <summary>Nothing is changed in it.</summary>
    public const int Closed = -2;

    /// <summary>Something is changed in it. From 0 on: the first of its valves that is changed, by its place in the group.</summary>
    public const int Open = -1;

    public SearchNode(int groups)
    {
        States = new int[groups];
        Low = new double[groups];
        High = new double[groups];
        Array.Fill(States, Undecided);
        Array.Fill(High, double.PositiveInfinity);
        HighOfAll = double.PositiveInfinity;
    }

    private SearchNode(SearchNode parent)
    {
        States = (int[])parent.States.Clone();
        Low = (double[])parent.Low.Clone();
        High = (double[])parent.High.Clone();
        (LowOfAll, HighOfAll) = (parent.LowOfAll, parent.HighOfAll);
        Prices = parent.Prices;
        Bound = parent.Bound;
    }

    /// <summary>What is settled about each group.</summary>
    public int[] States { get; }

    /// <summary>The least doubt of each group.</summary>
    public double[] Low { get; }

    /// <summary>The greatest doubt of each group.</summary>
    public double[] High { get; }

    /// <summary>The least doubt of all groups together.</summary>
    public double LowOfAll { get; set; }

    /// <summary>The greatest doubt of all groups together.</summary>
    public double HighOfAll { get; set; }

    /// <summary>No plan of this part costs less.</summary>
    public double Bound { get; set; } = double.NegativeInfinity;

    /// <summary>The best prices of shims so far.</summary>
    public ShimPrices? Prices { get; set; }

    public SearchNode Child() => new(this);

    /// <summary>What of it lies between two doubts of all groups together.</summary>
    public SearchNode Between(double low, double high) => new(this) { LowOfAll = low, HighOfAll = high };

    /// <summary>What of it lies between two doubts of a group.</summary>
    public SearchNode Between(int g, double low, double high)
    {
        SearchNode child = Child();
        (child.Low[g], child.High[g]) = (low, high);
        return child;
    }

    /// <summary>Whether a group is known to be opened.</summary>
    public bool IsOpen(int g) => States[g] >= Open;

    /// <summary>The first of two doubts that lies inside a group's interval; NaN where neither does.</summary>
    public double Inside(int g, double first, double second) =>
        Branch.Lies(first, Low[g], High[g]) ? first : Branch.Lies(second, Low[g], High[g]) ? second : double.NaN;
}
