using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>By what law the valves of an engine have lost their clearance. Only one of them is the estimate's own.</summary>
internal enum LossLaw
{
    /// <summary>Every valve of a side loses the whole shared loss, and something of its own.</summary>
    Floor,

    /// <summary>Every valve has its own share of the shared loss: gamma with shape 2. The estimate's own law.</summary>
    Shares,

    /// <summary>The intake side as with shares; the exhaust valves lose only something of their own.</summary>
    IntakesOnly,

    /// <summary>No two valves share anything.</summary>
    Independent,

    /// <summary>All valves lose little, and one of them much.</summary>
    OneSeat,
}

/// <summary>What the valves of one engine have lost.</summary>
/// <param name="Law">The law.</param>
/// <param name="Shared">Scale of the shared loss, mm.</param>
/// <param name="ExhaustShared">The same of an exhaust side that has a cause of its own.</param>
/// <param name="Own">Mean of each valve's own loss, mm.</param>
internal sealed record Loss(LossLaw Law, double Shared, double ExhaustShared, double Own)
{
    private const double Greatest = 0.24;
    private const double FailingSeat = 0.08;

    /// <summary>Draws what every valve has lost, mm.</summary>
    /// <param name="isIntake">For each valve whether it is an intake valve.</param>
    /// <param name="draws">Chance.</param>
    public double[] Draw(IReadOnlyList<bool> isIntake, Draws draws)
    {
        bool oneCause = draws.Happens(0.5);
        double intake = draws.CutExponential(Shared, Greatest);
        double exhaust = draws.CutExponential(oneCause ? Shared : ExhaustShared, Greatest);
        int failing = (int)draws.Uniform(0, isIntake.Count);
        return [.. isIntake.Select((isIn, v) => Common(isIn, oneCause || isIn ? intake : exhaust, draws) + draws.Exponential(Own)
            + (Law == LossLaw.OneSeat && v == failing ? draws.Exponential(FailingSeat) : 0))];
    }

    private double Common(bool isIntake, double shared, Draws draws) => Law switch
    {
        LossLaw.Floor => shared,
        LossLaw.Shares => shared * Share(draws),
        LossLaw.IntakesOnly => isIntake ? shared * Share(draws) : 0,
        LossLaw.Independent => draws.CutExponential(Shared, Greatest),
        _ => shared / 4 * Share(draws),
    };

    private static double Share(Draws draws) => draws.Exponential(0.5) + draws.Exponential(0.5);
}
