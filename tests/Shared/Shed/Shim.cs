using Shimwright.Bench.Drawer;

namespace Shimwright.Testing.Shed;

/// <summary>A shim that can be held in the hand: one of many alike in the drawer, but itself here, and in one place.</summary>
/// <param name="number">Tells it from every other.</param>
/// <param name="size">What is stamped on it.</param>
/// <param name="actual">How thick it is, mm.</param>
internal sealed class Shim(int number, ShimSize size, double actual)
{
    public int Number => number;

    public ShimSize Size => size;

    public double Actual => actual;
}
