using Shimwright.Domain.Planning;
using Shimwright.Domain.Shims;

namespace Shimwright.Domain.Advice;

/// <summary>All that advice on the next thing rests on.</summary>
public sealed record AdviceRequest
{
    /// <summary>Makes a request.</summary>
    /// <param name="plan">What a plan would rest on now.</param>
    /// <param name="blades">The person's blades, mm.</param>
    /// <param name="minutes">What each kind of action takes; what is usual where it is left out.</param>
    /// <param name="micrometer">The micrometer at hand; the usual one where it is left out.</param>
    /// <param name="seed">Where the outcomes that are taken for a dry fit begin.</param>
    /// <param name="off">Access groups whose camshaft is off: no blade can be tried there, and no bucket turned.</param>
    /// <exception cref="ArgumentNullException"><paramref name="plan"/> or <paramref name="blades"/> is null.</exception>
    public AdviceRequest(PlanRequest plan, IEnumerable<double> blades, ActionMinutes? minutes = null, Instrument? micrometer = null, int seed = 1,
        IEnumerable<string>? off = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(blades);
        Plan = plan;
        Blades = [.. blades.Distinct().Order()];
        Minutes = minutes ?? ActionMinutes.Usual;
        Micrometer = micrometer ?? Instrument.Micrometer;
        Seed = seed;
        Off = (off ?? []).ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>What a plan would rest on now.</summary>
    public PlanRequest Plan { get; }

    /// <summary>The person's blades, thinnest first, mm.</summary>
    public IReadOnlyList<double> Blades { get; }

    /// <summary>What each kind of action takes.</summary>
    public ActionMinutes Minutes { get; }

    /// <summary>The same where a kind of action cannot be done.</summary>
    /// <param name="kind">The kind.</param>
    /// <returns>The request.</returns>
    public AdviceRequest Without(ActionKind kind) => With(Minutes.Without(kind));

    /// <summary>The same where actions take other minutes.</summary>
    /// <param name="minutes">The minutes.</param>
    /// <returns>The request.</returns>
    public AdviceRequest With(ActionMinutes minutes) => new(Plan, Blades, minutes, Micrometer, Seed, Off);

    /// <summary>The same with some camshafts off.</summary>
    /// <param name="groups">Their access groups.</param>
    /// <returns>The request.</returns>
    public AdviceRequest WithOff(IEnumerable<string> groups) => new(Plan, Blades, Minutes, Micrometer, Seed, groups);

    /// <summary>Access groups whose camshaft is off.</summary>
    public IReadOnlySet<string> Off { get; }

    /// <summary>The micrometer at hand.</summary>
    public Instrument Micrometer { get; }

    /// <summary>Where the outcomes that are taken for a dry fit begin.</summary>
    public int Seed { get; }
}
