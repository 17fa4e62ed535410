using Shimwright.Domain.Engines;

namespace Shimwright.Domain.Planning;

/// <summary>
/// What plans of a job cost. Work is what is opened, changed and bought; to come is what has to be expected afterwards: another
/// round with the chance that any valve fails, a group lifted again with the chance that any of its valves does, and a change
/// with the chance that its valve does. Stranded valves are in no product and no sum.
/// </summary>
internal sealed class PlanLedger
{
    private readonly bool[] _isOpened;

    public PlanLedger(PlanRequest request)
    {
        Engine engine = request.Engine;
        List<string> groups = [.. engine.Groups];
        GroupOf = [.. engine.Valves.Select(v => groups.IndexOf(v.Group))];
        Members = [.. groups.Select((_, g) => Enumerable.Range(0, GroupOf.Length).Where(v => GroupOf[v] == g).ToArray())];
        Access = [.. groups.Select(request.Costs.AccessOf)];
        Opening = [.. groups.Select(request.Costs.ToOpen)];
        Redo = request.Costs.Redo;
        Again = request.Again;
        GroupDoubt = new double[groups.Count];
        _isOpened = new bool[groups.Count];
    }

    /// <summary>The access group of each valve.</summary>
    public int[] GroupOf { get; }

    /// <summary>The valves of each access group.</summary>
    public int[][] Members { get; }

    /// <summary>Minutes to lift each access group another time.</summary>
    public double[] Access { get; }

    /// <summary>Minutes to open each access group now: nothing where it is open.</summary>
    public double[] Opening { get; }

    /// <summary>Minutes of another round apart from lifting and changing.</summary>
    public double Redo { get; }

    /// <summary>Minutes to change a valve once more.</summary>
    public double Again { get; }

    /// <summary>The doubt of each group in the plan that was looked at last: Σ -ln chance.</summary>
    public double[] GroupDoubt { get; }

    /// <summary>The chance that something fails, given its doubt.</summary>
    public static double Failing(double doubt) => -double.ExpM1(-doubt);

    /// <summary>What a plan comes to; of an opened group the kept valves are seated anew in it.</summary>
    public PlanTally Of(ReadOnlySpan<ValveOption> choice)
    {
        Array.Clear(_isOpened);
        Array.Clear(GroupDoubt);
        (double work, double failing) = (0, 0);
        (int opened, int changed, int bought, int stranded) = (0, 0, 0, 0);
        for (int v = 0; v < choice.Length; v++)
        {
            ValveOption option = choice[v];
            int g = GroupOf[v];
            work += option.Minutes;
            failing += option.Failing;
            GroupDoubt[g] += option.Doubt;
            stranded += option.IsStranded ? 1 : 0;
            bought += option.IsBought ? 1 : 0;
            if (option.IsChange)
            {
                changed++;
                opened += _isOpened[g] ? 0 : 1;
                _isOpened[g] = true;
            }
        }

        (double doubt, double lifts) = (0, 0);
        for (int g = 0; g < GroupDoubt.Length; g++)
        {
            doubt += GroupDoubt[g];
            lifts += Access[g] * Failing(GroupDoubt[g]);
            work += _isOpened[g] ? Opening[g] : 0;
        }

        return new(work, (Redo * Failing(doubt)) + lifts + (Again * failing), doubt, opened, changed, bought, stranded);
    }
}

/// <summary>What a plan comes to.</summary>
/// <param name="Work">Minutes of work.</param>
/// <param name="ToCome">Minutes that are to come.</param>
/// <param name="Doubt">Σ -ln chance.</param>
/// <param name="Opened">Groups that are opened.</param>
/// <param name="Changed">Valves that are changed.</param>
/// <param name="Bought">Shims that are bought.</param>
/// <param name="Stranded">Valves that are left out of band.</param>
internal readonly record struct PlanTally(double Work, double ToCome, double Doubt, int Opened, int Changed, int Bought, int Stranded);
