using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Numerics;
using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Planning;

/// <summary>
/// The chances of an estimate's valves given what the valves share. A reading at one valve says nothing more of another one but by
/// that: the chances given it stay as they are, only its weights change. So what would be known of the others after one more reading
/// costs a sum over the weights and no distribution.
/// </summary>
internal sealed class GivenCause(EngineEstimate estimate)
{
    /// <summary>Numbers that are kept for all changes together, eight bytes each.</summary>
    private const int MostKept = 4_000_000;

    /// <summary>A change that brings a valve into its band less often than this is left out: what is learnt would have to be as unlikely.</summary>
    private const double Negligible = 1e-9;

    private readonly Dictionary<int, double[]> _inBand = [];
    private readonly Dictionary<(int Valve, ClearanceChange Change), double[]> _after = [];
    private int _kept;

    /// <summary>A valve before more was read.</summary>
    public ClearanceDistribution Of(int valve) => estimate.Valves[valve];

    /// <summary>Whether it says what another estimate knows of a valve.</summary>
    public bool Holds(EngineEstimate other, int valve) => other.IsAsIn(estimate, valve);

    /// <summary>The chance of being in band under the weights of another estimate.</summary>
    public double InBand(EngineEstimate other, int valve)
    {
        if (!_inBand.TryGetValue(valve, out double[]? chances))
        {
            _inBand.Add(valve, chances = estimate.KeptGivenCause(valve, null));
        }

        return Average(chances, other.WeightsAt(valve));
    }

    /// <summary>The chance of landing in band after a change under the weights of another estimate; null where it has to be asked of the distribution.</summary>
    public double? InBandAfter(EngineEstimate other, int valve, ClearanceChange change)
    {
        if (change.IsSet)
        {
            return null;
        }

        if (Of(valve).InBandAfterAtMost(change) < Negligible)
        {
            return 0;
        }

        double[] weights = other.WeightsAt(valve);
        if (!_after.TryGetValue((valve, change), out double[]? chances))
        {
            if (_kept + weights.Length > MostKept)
            {
                return null;
            }

            _kept += weights.Length;
            _after.Add((valve, change), chances = estimate.ChangedGivenCause(valve, Of(valve).LandingChances(change)));
        }

        return Average(chances, weights);
    }

    private static double Average(double[] chances, double[] weights) => Math.Clamp(VectorMath.Dot(chances, weights), 0, 1);
}
