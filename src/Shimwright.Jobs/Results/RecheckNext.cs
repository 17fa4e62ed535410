using Shimwright.Domain.Advice;
using Shimwright.Domain.Rechecking;

namespace Shimwright.Jobs.Results;

/// <summary>
/// What to feel next at a re-check, so that the verdict is reached with the fewest trials: first what no verdict can do without, then
/// the readings that pay under the advice of the next round.
/// </summary>
public static class RecheckNext
{
    private const double SameBlade = 1e-9;

    /// <summary>What to feel next; readings only, since the engine is to be closed, not planned.</summary>
    /// <param name="job">The job, with something changed.</param>
    /// <param name="verdict">Its verdict as far as it has come.</param>
    /// <param name="stops">The crank stops, in whose order the valves are gone through; the engine's order where there are none.</param>
    /// <returns>The answer; it counts what the best plan of another round would come to.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> or <paramref name="verdict"/> is null.</exception>
    /// <exception cref="InvalidOperationException">The job has no re-check.</exception>
    public static NextResult Of(Job job, VerdictResult verdict, StopsResult? stops)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(verdict);
        Job round = job.NextRound();
        AdviceRequest request = round.ToAdviceRequest().Without(ActionKind.Micrometer).Without(ActionKind.Depth).Without(ActionKind.DryFit);
        NextRow[] unread = [.. Waiting(job, verdict, stops, PassResult.NotFelt, request)];
        // While a changed valve is unread the verdict waits for it, whatever else would pay.
        NextResult pays = NextResult.Of(round, Advisor.For(unread.Length == 0 ? request : request.Without(ActionKind.Blade).Without(ActionKind.Bucket)));
        NextRow[] telling = [.. pays.Next.Where(n => IsOpen(job, verdict, n))];
        IEnumerable<NextRow> weak = unread.Length == 0
            ? Waiting(job, verdict, stops, PassResult.FeltTooLittle, request).Where(w => telling.All(t => t.Valve != w.Valve))
            : [];
        NextRow[] next = [.. unread, .. weak, .. telling];
        return pays with { PlanNow = next.Length == 0, Next = next };
    }

    /// <summary>The blade to feel a valve with again: of those that were not tried at the re-check the nearest to what is expected.</summary>
    /// <param name="job">The job.</param>
    /// <param name="valve">The valve's place in the engine, from 0.</param>
    /// <param name="expected">The clearance that is expected, mm.</param>
    /// <returns>The blade, mm; null where every blade was tried.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static double? BladeAt(Job job, int valve, double expected)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Untried(job.Blades, job.Rechecked[valve].Trials.Select(t => t.Blade), expected);
    }

    /// <summary>Of the blades that were not tried yet the nearest to what is expected.</summary>
    /// <param name="blades">The person's blades, mm.</param>
    /// <param name="tried">Those that were tried, mm.</param>
    /// <param name="expected">The clearance that is expected, mm.</param>
    /// <returns>The blade, mm; null where every blade was tried.</returns>
    public static double? Untried(IEnumerable<double> blades, IEnumerable<double> tried, double expected)
    {
        double[] untried = [.. blades.Where(b => !tried.Any(t => Math.Abs(t - b) < SameBlade))];
        return untried.Length == 0 ? null : untried.MinBy(b => Math.Abs(b - expected));
    }

    /// <summary>The valves whose result is this one, each with the blade to try there.</summary>
    private static IEnumerable<NextRow> Waiting(Job job, VerdictResult verdict, StopsResult? stops, PassResult result, AdviceRequest request)
    {
        List<string> order = [.. stops?.Stops.SelectMany(s => s.Valves).Select(v => v.Valve) ?? []];
        return verdict.Valves.Index().Where(v => v.Item.Result == result).OrderBy(v => order.IndexOf(v.Item.Valve)).SelectMany(v =>
            BladeAt(job, v.Index, result == PassResult.NotFelt ? v.Item.Predicted.Mean : v.Item.Estimate.Mean) is { } blade
                ? new[] { NextRow.Waiting(v.Item.Valve, blade, request.Minutes.Blade ?? 0, result) }
                : []);
    }

    /// <summary>A valve that was left alone, was felt again and passes is done with.</summary>
    private static bool IsOpen(Job job, VerdictResult verdict, NextRow row)
    {
        (int place, VerdictRow of) = verdict.Valves.Index().First(v => v.Item.Valve == row.Valve);
        return !of.Passes || job.Rechecked[place].IsEmpty || job.Changes.Any(c => c.Valve == place);
    }
}
