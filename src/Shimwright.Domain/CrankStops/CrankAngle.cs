using Shimwright.Domain.Numerics;

namespace Shimwright.Domain.CrankStops;

/// <summary>Angles on the four-stroke cycle: 720 crank degrees, 0 at cylinder 1's compression TDC, in running direction.</summary>
public static class CrankAngle
{
    /// <summary>Crank degrees in a cycle.</summary>
    public const double Cycle = 720;

    /// <summary>Rounding that is forgiven, crank degrees.</summary>
    internal const double Slack = 1e-9;

    /// <summary>The same angle in [0, 720).</summary>
    /// <param name="degrees">Any finite angle.</param>
    /// <returns>The angle within the cycle; what lies within rounding of 720 is 0.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="degrees"/> is not finite.</exception>
    public static double Wrap(double degrees)
    {
        double wrapped = Guard.Finite(degrees) % Cycle;
        wrapped = wrapped < 0 ? wrapped + Cycle : wrapped;
        return wrapped >= Cycle - Slack ? 0 : wrapped;
    }

    /// <summary>How far one has to turn in running direction to get from one angle to another.</summary>
    /// <param name="from">Where the crank stands.</param>
    /// <param name="to">Where it shall stand.</param>
    /// <returns>Crank degrees in [0, 720).</returns>
    public static double Turn(double from, double to) => Wrap(to - from);
}
