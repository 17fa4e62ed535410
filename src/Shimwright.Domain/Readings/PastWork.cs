namespace Shimwright.Domain.Readings;

/// <summary>What it takes to follow the valves of an engine through its checks: sums and products, roughly.</summary>
internal sealed class PastWork
{
    private const double MostMade = 6e8;

    /// <summary>Passes over the grid for one valve at one check; what a chance of a feel and a direct value take in sums and products.</summary>
    private const double Passes = 30, PerChance = 25, PerValue = 5;

    private readonly FeelProfile _feel;
    private readonly (double Reach, double Stretch, int Values, (int Leaves, int Times, int Feels)[] Groups)[] _read;

    /// <summary>Of these checks, all of one engine.</summary>
    public PastWork(IReadOnlyList<EngineCheck> checks)
    {
        _feel = checks[0].Feel;
        _read =
        [
            .. from check in checks
               from v in Enumerable.Range(0, check.Readings.Count)
               let readings = check.Readings[v]
               where !readings.IsEmpty
               let gaps = Likelihood.SpanOf(readings, check.Feel, default)
               select (
                   LossTable.ReachOf(check.Engine.Valves[v].Band.Width, check.Loss),
                   gaps.To - gaps.From,
                   readings.Values.Count + readings.BucketTurns.Count,
                   Groups(readings)),
        ];
    }

    /// <summary>Whether the checks can be followed at a resolution.</summary>
    public bool CanBear(Resolution resolution)
    {
        double made = 0;
        foreach ((double reach, double stretch, int values, (int Leaves, int Times, int Feels)[] groups) in _read)
        {
            double points = Math.Min(stretch, reach) / resolution.Step;
            made += (Passes * reach / resolution.Step) + (PerValue * values * points)
                + (PerChance * points * groups.Sum(g => (double)g.Feels * BladeGroup.ErrorsOf(_feel, g.Leaves, g.Times, resolution.Floor)));
        }

        return made <= MostMade;
    }

    private static (int Leaves, int Times, int Feels)[] Groups(ValveReadings readings) =>
        [.. readings.Trials.GroupBy(t => (Math.Round(t.Blade, 9), t.Leaves)).Select(g => (g.Key.Leaves, g.Count(), g.Select(t => t.Feel).Distinct().Count()))];
}
