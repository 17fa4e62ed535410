using Shimwright.Domain.Shims;
using Shimwright.Domain.Wear;
using Shimwright.Domain.Wear.Signs;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Past;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.Due;

/// <summary>A point of a risk curve.</summary>
/// <param name="Clock">The engine's clock, hours or km.</param>
/// <param name="Risk">The chance that any valve is outside its band, or has been, by then.</param>
public readonly record struct RiskPoint(double Clock, double Risk);

/// <summary>What is to be expected of an engine after its closed jobs: a job file that begins where the last job left it.</summary>
public sealed class EngineOutlook
{
    private const int CurveSteps = 24;

    // Nothing here changes: the same rates give the same answer.
    private Tuple<UsualWear, EngineWear>? _wear;
    private Tuple<UsualWear, ForecastResult>? _last;

    private EngineOutlook(Job job, int checks)
    {
        Job = job;
        Checks = checks;
    }

    /// <summary>The job, read for a forecast.</summary>
    public Job Job { get; }

    /// <summary>How many times the engine was checked.</summary>
    public int Checks { get; }

    /// <summary>The engine's clock at the last check.</summary>
    public double Clock => Job.Clock;

    /// <summary>What the card holds usual.</summary>
    public UsualWear Card => Job.Wear!.ToUsual(Job.Engine.Sense);

    /// <summary>The outlook of an engine; null where nothing was read yet or the card does not say what wear is usual.</summary>
    /// <param name="card">Its card.</param>
    /// <param name="closed">Its closed jobs, oldest first.</param>
    /// <param name="settings">The bench's settings.</param>
    /// <param name="thinnest">The thinnest shim there is for the engine, mm; null for what the bench can buy.</param>
    /// <returns>The outlook, or null.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="card"/> or <paramref name="settings"/> is null.</exception>
    public static EngineOutlook? Of(EngineCard card, IReadOnlyList<PastJob> closed, BenchSettings settings, double? thinnest)
    {
        ArgumentNullException.ThrowIfNull(card);
        ArgumentNullException.ThrowIfNull(settings);
        IReadOnlyList<WrittenCheck> history = EngineHistory.Of(card, closed);
        if (card.Wear is null || history.Count == 0)
        {
            return null;
        }

        int checks = EngineHistory.Times(history);
        WrittenStart bench = settings.ForJob(new Dictionary<string, double>());
        (WrittenCheck now, IReadOnlyList<WrittenCheck> before) = EngineHistory.Now(history);
        WrittenStock? stock = thinnest is { } t ? new([new(t, Instrument.Marked.Name, 1)]) : bench.Stock;
        ParsedJob reading = JobFile.Read(new WrittenJob(now, before, stock, Settings: bench.Settings), card.Section, JobPurpose.Forecast);
        return reading.Job is { } job ? new(job, checks) : null;
    }

    /// <summary>The risk curve, from the last check to an interval after it.</summary>
    /// <param name="forecast">The forecast.</param>
    /// <param name="interval">The maker's interval.</param>
    /// <returns>The points.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="forecast"/> is null.</exception>
    public static IReadOnlyList<RiskPoint> Curve(EngineForecast forecast, double interval)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        return [.. Enumerable.Range(0, CurveSteps + 1).Select(k => forecast.Clock + (interval * k / CurveSteps))
            .Select(clock => new RiskPoint(clock, forecast.RiskAt(clock)))];
    }

    /// <summary>What the checks say of the wear, with the rates that are held usual.</summary>
    /// <param name="usual">What wear is usual: the card's, or what its engines have taught.</param>
    /// <returns>The wear.</returns>
    public EngineWear ToWear(UsualWear usual)
    {
        Tuple<UsualWear, EngineWear>? last = _wear;
        if (last is null || last.Item1 != usual)
        {
            last = new(usual, Job.ToEngineWear(usual));
            _wear = last;
        }

        return last.Item2;
    }

    /// <summary>The same answer that the command gives, with the rates that are held usual.</summary>
    /// <param name="usual">What wear is usual: the card's, or what its engines have taught.</param>
    /// <returns>The answer.</returns>
    public ForecastResult ToResult(UsualWear usual)
    {
        Tuple<UsualWear, ForecastResult>? last = _last;
        if (last is null || last.Item1 != usual)
        {
            last = new(usual, ForecastResult.From(Job, ToWear(usual)) with { Signs = [.. SignsOf(usual).Select(s => ForecastResult.RowOf(s, Job))] });
            _last = last;
        }

        return last.Item2;
    }

    /// <summary>
    /// The signs of the last time that the engine was looked at: of the check as it was found, and of the re-check after the
    /// work. The same sign at both is said once.
    /// </summary>
    private IEnumerable<WearSign> SignsOf(UsualWear usual)
    {
        IReadOnlyList<WearCheck> all = Job.AllChecks;
        int first = all.Count - all.Reverse().TakeWhile(c => c.Clock == Clock).Count() + 1;
        return Enumerable.Range(first, all.Count - first + 1)
            .SelectMany(n => WearSigns.Of(n == all.Count ? ToWear(usual) : WearFilter.Follow([.. all.Take(n)], usual, Job.Rules.Seating), Job.Stock.Thinnest)
                .Where(s => n == all.Count || s.Kind != SignKind.RoomNearlyUsed))
            .GroupBy(s => s.Kind).Select(g => g.MinBy(s => s.Evidence)!).OrderBy(s => s.Kind);
    }
}
