using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Wear;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Settings;
using Shimwright.Testing.Chance;

namespace Shimwright.Testing.Shed;

/// <summary>An engine as it truly is: clearances that close up as the wear model has it, and a shim in every valve.</summary>
internal sealed class ShedEngine
{
    private static readonly double[] Blades = [.. new BenchSettings().Blades];
    private static readonly UsualWear Usual = new(30);
    private readonly int _seed;
    private readonly int _number;
    private readonly Draws _wear;
    private readonly double[] _clearances;
    private readonly double[] _rates;

    public ShedEngine(int seed, int number, ShedKind kind, ShimWorld world)
    {
        (_seed, _number, Kind) = (seed, number, kind);
        Engine = kind.Card().Engine;
        _wear = new Draws(seed, number, 1);
        double shared = _wear.CutExponential(LossPrior.Ordinary.Shared, LossPrior.GreatestShared);
        _clearances = [.. Engine.Valves.Select(v => v.Band.Middle + _wear.Normal(v.Band.Width / 4) - shared - _wear.Exponential(LossPrior.Ordinary.Own))];
        _rates = [.. Engine.Valves.Select(v => Usual.RateOf(v.Side).Mean + _wear.Normal(Usual.RateOf(v.Side).StandardDeviation))];
        Fitted = [.. Engine.Valves.Select(_ => world.Make(kind.SizeNear(_wear.Uniform(2.0, 2.8))))];
        Clock = Math.Round(_wear.Uniform(50, 400), 1);
        Id = _wear.Id();
    }

    public Guid Id { get; }

    public ShedKind Kind { get; }

    public Engine Engine { get; }

    /// <summary>The shim in each valve.</summary>
    public Shim[] Fitted { get; }

    /// <summary>What its clock shows, hours.</summary>
    public double Clock { get; private set; }

    public string Name => FormattableString.Invariant($"{Kind.Name} {_number + 1:000}");

    public int ValveAt(string id) => Engine.Valves.Index().First(v => v.Item.Id == id).Index;

    /// <summary>Runs it: a tenth more or less than was said.</summary>
    public void Run(double hours)
    {
        double time = Math.Round(hours * Math.Exp(_wear.Normal(0.1)), 1);
        Clock = Math.Round(Clock + time, 1);
        for (int v = 0; v < _clearances.Length; v++)
        {
            _clearances[v] -= (_rates[v] * time) + _wear.Normal(Math.Sqrt(Usual.Diffusion * time));
        }
    }

    /// <summary>Feels a valve, as somebody with the usual fingers does.</summary>
    public IEnumerable<BladeTried> Feel(SheetPart part, int valve, int visit)
    {
        Valve v = Engine.Valves[valve];
        return Fingers.Try(FeelProfile.Default, v.Band, _clearances[valve], new Draws(_seed, _number, 2, visit, (int)part, valve), Blades)
            .Trials.Select(t => new BladeTried(part, v.Id, t.Blade, 1, t.Feel.ToString().ToLowerInvariant()));
    }

    /// <summary>Puts another shim into a valve; the one that was there is in the caller's hand.</summary>
    public void Fit(int valve, Shim shim)
    {
        _clearances[valve] += Fitted[valve].Actual - shim.Actual + _wear.Normal(Seating.Usual.StandardDeviation);
        Fitted[valve] = shim;
    }
}
