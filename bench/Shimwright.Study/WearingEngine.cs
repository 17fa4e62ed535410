using Shimwright.Domain.Adjusting;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;
using Shimwright.Testing.Chance;

namespace Shimwright.Study;

/// <summary>What is put into a simulated engine.</summary>
internal enum Fault
{
    Nothing,
    Dust,
    Seat,
    Cam,
    Step,
    WrongShim,
    Warm,
}

/// <summary>
/// An engine that wears as the model has it and is checked five times, an interval apart or somewhat less. Valves near a
/// limit or beyond it are brought to the middle of their bands with measured shims. The fault comes after the second check.
/// </summary>
internal sealed class WearingEngine
{
    public const int Checks = 5;
    private const int FirstFaulty = 2;
    private const double Interval = 30;
    private const double Near = 0.01;
    private const double Kappa = 0.001;
    private static readonly double[] Blades = [0.05, 0.08, 0.10, 0.13, 0.15, 0.18, 0.20, 0.23, 0.25, 0.28, 0.30];
    private readonly Draws _draws;
    private readonly Fault _fault;
    private readonly Engine _engine;
    private readonly double[] _clearances;
    private readonly double[] _rates;
    private readonly int _victim;
    private readonly List<WearCheck> _checks = [];

    public WearingEngine(int seed, int number, int cylinders, int perSide, Fault fault)
    {
        _draws = new Draws(seed, number, cylinders);
        _fault = fault;
        _engine = new Engine("Study", new Valvetrain(Adjuster.ShimUnderBucket), Enumerable.Range(1, cylinders).SelectMany(c =>
            Enumerable.Range(1, perSide).SelectMany(k => new[]
            {
                new Valve($"I{c}.{k}", c, ValveSide.Intake, "intake cam", new ClearanceBand(0.10, 0.17)),
                new Valve($"E{c}.{k}", c, ValveSide.Exhaust, "exhaust cam", new ClearanceBand(0.17, 0.24)),
            })));
        _clearances = [.. _engine.Valves.Select(v => v.Band.Middle + _draws.Normal(v.Band.Width / 4) - _draws.CutExponential(0.04, 0.24) - _draws.Exponential(0.02))];
        _rates = [.. _engine.Valves.Select(v => Usual.RateOf(v.Side).Mean + _draws.Normal(Usual.RateOf(v.Side).StandardDeviation))];
        _victim = (int)(_draws.Uniform() * _clearances.Length);
    }

    public static UsualWear Usual { get; } = new(Interval);

    /// <summary>The engine after each of its checks.</summary>
    public IEnumerable<EngineWear> Live()
    {
        double clock = 0;
        for (int k = 0; k < Checks; k++)
        {
            if (k == FirstFaulty)
            {
                Spoil();
            }

            double time = k == 0 ? 0 : _draws.Uniform(0.6, 1) * Interval;
            Run(time, k);
            EngineCheck check = Feel(k);
            _checks.Add(new WearCheck(clock += time, check));
            EngineWear wear = WearFilter.Follow(_checks, Usual);
            yield return wear;
            _checks[^1] = new WearCheck(clock, check, changes: Refit(wear, k));
        }
    }

    private void Spoil()
    {
        for (int v = 0; v < _rates.Length; v++)
        {
            _rates[v] *= _fault switch
            {
                Fault.Dust when _engine.Valves[v].Side == ValveSide.Intake => 5,
                Fault.Seat when v == _victim => 6,
                Fault.Cam when v == _victim => -3,
                _ => 1,
            };
        }
    }

    private void Run(double time, int check)
    {
        for (int v = 0; v < _clearances.Length; v++)
        {
            _clearances[v] -= (_rates[v] * time) + _draws.Normal(Math.Sqrt(Usual.Diffusion * time));
            _clearances[v] -= _fault == Fault.Step && v == _victim && check == FirstFaulty + 1 ? 0.06 : 0;
        }
    }

    private EngineCheck Feel(int check)
    {
        double temperature = _fault == Fault.Warm && check == FirstFaulty + 1 ? 60 : _draws.Uniform(5, 35);
        double gained = _fault == Fault.Warm ? Kappa * (temperature - 20) : 0;
        return new EngineCheck(_engine, [.. _clearances.Select(c => Felt(c + gained))], temperature);
    }

    private ValveReadings Felt(double gap)
    {
        List<BladeTrial> trials = [];
        int at = Array.IndexOf(Blades, Blades.MinBy(b => Math.Abs(b - gap - _draws.Normal(0.02))));
        for (int i = 0; i < 3; i++)
        {
            Feel feel = FeelOf(gap, Blades[at]);
            trials.Add(new BladeTrial(Blades[at], feel));
            at = Math.Clamp(feel is Domain.Readings.Feel.No or Domain.Readings.Feel.Firm ? at - 1 : at + 1, 0, Blades.Length - 1);
        }

        return new ValveReadings(trials);
    }

    private Feel FeelOf(double gap, double blade)
    {
        double draw = _draws.Uniform();
        foreach (Feel feel in Enum.GetValues<Feel>())
        {
            draw -= FeelProfile.Default.Chance(feel, gap, blade);
            if (draw < 0)
            {
                return feel;
            }
        }

        return Domain.Readings.Feel.Loose;
    }

    private List<Adjustment> Refit(EngineWear wear, int check)
    {
        List<Adjustment> changes = [];
        for (int v = 0; v < _clearances.Length; v++)
        {
            ClearanceBand band = _engine.Valves[v].Band;
            double mean = wear.Now[v].Clearance;
            bool isWrong = _fault == Fault.WrongShim && check == FirstFaulty && v == _victim;
            if (isWrong || mean < band.Low + Near || mean > band.High - Near)
            {
                double shift = band.Middle - mean;
                changes.Add(Adjustment.Fitted(v, new Thickness(3, Instrument.Micrometer), new Thickness(3 - shift, Instrument.Micrometer)));
                double error = Seating.Usual.ChangeUncertainty(Math.Sqrt(2) * Instrument.Micrometer.Random);
                _clearances[v] += shift + _draws.Normal(error) - (isWrong ? 0.05 : 0);
            }
        }

        return changes;
    }
}
