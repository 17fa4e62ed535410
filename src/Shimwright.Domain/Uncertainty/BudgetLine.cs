using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.Uncertainty;

/// <summary>One line of a budget: a quantity and how the result moves with it.</summary>
public sealed class BudgetLine
{
    /// <summary>Makes a line.</summary>
    /// <param name="input">The quantity.</param>
    /// <param name="sensitivity">The derivative of the result by it (JCGM 100:2008, 5.1.3).</param>
    /// <exception cref="ArgumentNullException"><paramref name="input"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="sensitivity"/> is not finite.</exception>
    public BudgetLine(InputQuantity input, double sensitivity)
    {
        ArgumentNullException.ThrowIfNull(input);
        Input = input;
        Sensitivity = Guard.Finite(sensitivity);
    }

    /// <summary>The quantity.</summary>
    public InputQuantity Input { get; }

    /// <summary>The derivative of the result by it.</summary>
    public double Sensitivity { get; }

    /// <summary>|sensitivity|·u, what the quantity alone would make of the result's uncertainty.</summary>
    public double Contribution => Math.Abs(Sensitivity) * Input.Uncertainty;
}
