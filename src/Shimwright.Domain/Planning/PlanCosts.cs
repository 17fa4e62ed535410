using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Planning;

/// <summary>What things cost, in minutes of the mechanic's time.</summary>
public sealed record PlanCosts
{
    /// <summary>The greatest time or price that is taken.</summary>
    public const double Greatest = 100_000;

    /// <summary>What changing a valve that was in band already costs more, minutes. Common practice, no source.</summary>
    public const double UsualDisturb = 5;

    /// <summary>Makes the costs.</summary>
    /// <param name="redo">What another round costs apart from lifting and swapping, come-backs included in their share.</param>
    /// <param name="access">Minutes to lift each access group; a group that is not named costs nothing.</param>
    /// <param name="swap">Minutes to change the setting of one valve.</param>
    /// <param name="minutesPerCurrency">Minutes that one unit of currency is worth.</param>
    /// <param name="disturb">Minutes that changing a valve costs more where it was in band already.</param>
    /// <param name="open">The groups that are open already: opening them costs nothing any more; lifting them once more does.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="redo"/>, <paramref name="swap"/>, <paramref name="minutesPerCurrency"/>, <paramref name="disturb"/> or one of <paramref name="access"/> is outside its range.</exception>
    public PlanCosts(
        double redo = 60, IReadOnlyDictionary<string, double>? access = null, double swap = 3, double minutesPerCurrency = 1,
        double disturb = UsualDisturb, IEnumerable<string>? open = null)
    {
        Redo = Guard.Within(redo, 0, Greatest);
        Swap = Guard.Within(swap, 0, Greatest);
        MinutesPerCurrency = Guard.Within(minutesPerCurrency, 0, Greatest);
        Disturb = Guard.Within(disturb, 0, Greatest);
        Access = access ?? new Dictionary<string, double>();
        Open = (open ?? []).ToHashSet(StringComparer.Ordinal);
        foreach (double minutes in Access.Values)
        {
            Guard.Within(minutes, 0, Greatest, nameof(access));
        }
    }

    /// <summary>What another round costs apart from lifting and swapping, minutes.</summary>
    public double Redo { get; }

    /// <summary>Minutes to lift each access group.</summary>
    public IReadOnlyDictionary<string, double> Access { get; }

    /// <summary>Minutes to change the setting of one valve.</summary>
    public double Swap { get; }

    /// <summary>Minutes that one unit of currency is worth.</summary>
    public double MinutesPerCurrency { get; }

    /// <summary>Minutes that changing a valve costs more where it was in band already.</summary>
    public double Disturb { get; }

    /// <summary>The groups that are open already.</summary>
    public IReadOnlySet<string> Open { get; }

    /// <summary>Minutes that it takes to open a group as things stand; nothing where it is open.</summary>
    /// <param name="group">The access group.</param>
    /// <returns>Minutes.</returns>
    public double ToOpen(string group) => Open.Contains(group) ? 0 : AccessOf(group);

    /// <summary>The same with more groups open.</summary>
    /// <param name="groups">The groups.</param>
    /// <returns>The costs.</returns>
    public PlanCosts WithOpen(IEnumerable<string> groups) => new(Redo, Access, Swap, MinutesPerCurrency, Disturb, Open.Concat(groups));

    /// <summary>Minutes to lift a group; 0 where it is not named.</summary>
    /// <param name="group">The access group.</param>
    /// <returns>Minutes.</returns>
    public double AccessOf(string group) => Access.GetValueOrDefault(group);
}
