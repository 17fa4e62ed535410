namespace Shimwright.Domain.Planning;

/// <summary>How a part of all plans is divided, and what its bound gives away.</summary>
/// <param name="Kind">What is divided.</param>
/// <param name="Group">The group, where it is one.</param>
/// <param name="At">The doubt to divide at.</param>
/// <param name="Share">What the bound gives away there.</param>
/// <param name="Gap">What it gives away in all.</param>
/// <param name="IsAllOfTheGap">Whether it gives nothing away elsewhere.</param>
internal readonly record struct Branch(BranchKind Kind, int Group, double At, double Share, double Gap, bool IsAllOfTheGap)
{
    /// <summary>Below this nothing is given away.</summary>
    private const double Nothing = 1e-13;

    /// <summary>How near the end of an interval it is not divided any more.</summary>
    private const double Edge = 1e-11;

    public static Branch None { get; } = new(BranchKind.None, 0, 0, 0, double.PositiveInfinity, false);

    /// <summary>This, where it divides anything.</summary>
    public Branch? OrNull() => Kind == BranchKind.None ? null : this;

    public static bool Lies(double doubt, double low, double high) => doubt > low + Edge && doubt < high - Edge;

    public static Branch OfAll(double share, double at) => Of(BranchKind.All, 0, share, at);

    public static Branch OfGroup(int g, double share, double at) => double.IsNaN(at) ? None : Of(BranchKind.Group, g, share, at);

    public static Branch Deciding(int g, double share) => Of(BranchKind.Decide, g, share, 0);

    public static Branch Forcing(int g, double share) => Of(BranchKind.Force, g, share, 0);

    /// <summary>This with what the bound gives away in all.</summary>
    public Branch Giving(double gap) => Kind == BranchKind.None ? this : this with { Gap = gap };

    /// <summary>The one that gives more away.</summary>
    public Branch Or(Branch other) => other.Share > Share ? other : this;

    /// <summary>The parts.</summary>
    public IEnumerable<SearchNode> Divide(SearchNode node, InterchangeableGroups alike, PlanLedger ledger) => Kind switch
    {
        BranchKind.All => [node.Between(node.LowOfAll, At), node.Between(At, node.HighOfAll)],
        BranchKind.Group => [node.Between(Group, node.Low[Group], At), node.Between(Group, At, node.High[Group])],
        BranchKind.Decide => Decide(node, alike),
        BranchKind.Force => Force(node, ledger),
        _ => throw new InvalidOperationException("What is not divided has no parts."),
    };

    private static Branch Of(BranchKind kind, int g, double share, double at) =>
        share > Nothing ? new(kind, g, at, share, double.PositiveInfinity, false) : None;

    /// <summary>
    /// Of groups that are alike the earlier ones are opened first: any plan can be rewritten so, with the same value. So the first of
    /// them is decided, and where it is closed, all of them are.
    /// </summary>
    private SearchNode[] Decide(SearchNode node, InterchangeableGroups alike)
    {
        (SearchNode opened, SearchNode closed) = (node.Child(), node.Child());
        bool isFirst = true;
        for (int g = 0; g < node.States.Length; g++)
        {
            if (node.States[g] == SearchNode.Undecided && alike.Are(g, Group))
            {
                closed.States[g] = SearchNode.Closed;
                opened.States[g] = isFirst ? SearchNode.Open : SearchNode.Undecided;
                isFirst = false;
            }
        }

        return [opened, closed];
    }

    /// <summary>A group that is opened has a first valve that is changed.</summary>
    private IEnumerable<SearchNode> Force(SearchNode node, PlanLedger ledger)
    {
        for (int k = 0; k < ledger.Members[Group].Length; k++)
        {
            SearchNode child = node.Child();
            child.States[Group] = k;
            yield return child;
        }
    }
}

/// <summary>What a part of all plans is divided by.</summary>
internal enum BranchKind : byte
{
    /// <summary>It is not divided.</summary>
    None,

    /// <summary>The doubt of all groups together.</summary>
    All,

    /// <summary>The doubt of one group.</summary>
    Group,

    /// <summary>Whether a group is opened.</summary>
    Decide,

    /// <summary>Which valve of an opened group is the first that is changed.</summary>
    Force,
}
