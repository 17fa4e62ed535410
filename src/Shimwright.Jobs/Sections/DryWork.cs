using Shimwright.Domain.Engines;
using Shimwright.Domain.Shims;

namespace Shimwright.Jobs.Sections;

/// <summary>Dry fits as what they are for the figures: rounds of feeling in the middle of the work.</summary>
internal static class DryWork
{
    /// <summary>What was done before each dry fit, and last what was done before the re-check; every one from the feeling before it.</summary>
    public static IReadOnlyList<ChangedSection> StagesOf(RecheckSection recheck, Engine engine) => recheck.DryFits.Count == 0 ? [recheck.Changed] :
    [
        .. WorkStages.Of(
            [.. recheck.DryFits.Select(d => (Under(engine, d.Access!), Exchanges(d.Changed)))], Exchanges(recheck.Changed)).Select(SectionOf),
    ];

    /// <summary>The rounds that come before the next one, and its check. Where nothing was done since the last dry fit, and nothing felt, that is the check.</summary>
    public static (IReadOnlyList<PastSection> Rounds, CheckSection Check) RoundsOf(
        CheckSection check, RecheckSection recheck, double temperature, Engine engine)
    {
        IReadOnlyList<ChangedSection> stages = StagesOf(recheck, engine);
        if (recheck.IsDry)
        {
            // The camshafts have not been laid down for good yet: a plan that opens their groups counts the seating itself.
            ChangedSection last = Without(stages[^1]);
            stages = last.ByValve.Count == 0 ? [.. stages.SkipLast(1)] : [.. stages.SkipLast(1), last];
        }

        List<PastSection> rounds = [];
        foreach ((ChangedSection changed, int stage) in stages.Select((s, i) => (s, i)))
        {
            rounds.Add(new(check, changed));
            ReadingsSection felt = stage < recheck.DryFits.Count ? recheck.DryFits[stage].Readings : recheck.Readings;
            check = check with { Temperature = temperature, Readings = felt, Fitted = check.Fitted.After(changed) };
        }

        return (rounds, check);
    }

    private static ChangedSection Without(ChangedSection stage) =>
        ChangedSection.Of(stage.ByValve.Where(c => !c.Value.IsSeatedAnew).ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal));

    /// <summary>The ids of the valves under a camshaft.</summary>
    public static IReadOnlySet<string> Under(Engine engine, string access) => engine.Under(access).Select(v => v.Id).ToHashSet(StringComparer.Ordinal);

    private static Dictionary<string, Exchange<Thickness>> Exchanges(ChangedSection changed) => changed.ByValve
        .Where(c => c.Value is { From: not null, To: not null })
        .ToDictionary(c => c.Key, c => new Exchange<Thickness>(c.Value.From!, c.Value.To!), StringComparer.Ordinal);

    private static ChangedSection SectionOf(WorkStage<Thickness> stage) => ChangedSection.Of(
        stage.Changed.Select(c => (c.Key, Value: new ChangedValve(c.Value.From, c.Value.To, 0)))
            .Concat(stage.SeatedAnew.Select(v => (Key: v, Value: ChangedValve.SeatedAnew)))
            .ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal));
}
