using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What a reading is worth: what the best plan comes to now, less what it is expected to come to afterwards. Exact over the four feels of
/// a blade and the two answers of a bucket: each outcome is planned from.
/// </summary>
internal static class TrialWorth
{
    private static readonly Feel[] Feels = Enum.GetValues<Feel>();
    private static readonly bool[] Turnings = [true, false];

    /// <summary>The outcomes of a blade or stack at a valve.</summary>
    public static IReadOnlyList<AdvisedOutcome> OfBlade(Outlook now, int valve, double blade, int leaves) =>
        OfBlade(now, valve, blade, leaves, new double[Feels.Length], double.NegativeInfinity)!;

    /// <summary>The same; null where it does not save so many minutes. About how likely each feel is says which is looked at first.</summary>
    public static IReadOnlyList<AdvisedOutcome>? OfBlade(Outlook now, int valve, double blade, int leaves, double[] likely, double toSave) => Of(
        now, valve, Feels, likely, toSave, feel => new ValveReadings([new BladeTrial(blade, feel, leaves)]), (feel, p, minutes) => new(feel, null, p, minutes));

    /// <summary>The outcomes of turning the bucket by hand.</summary>
    public static IReadOnlyList<AdvisedOutcome> OfBucket(Outlook now, int valve) =>
        OfBucket(now, valve, new double[Turnings.Length], double.NegativeInfinity)!;

    /// <summary>The same; null where it does not save so many minutes. About how likely each answer is says which is looked at first.</summary>
    public static IReadOnlyList<AdvisedOutcome>? OfBucket(Outlook now, int valve, double[] likely, double toSave) => Of(
        now, valve, Turnings, likely, toSave, turns => new ValveReadings(bucketTurns: [turns]), (turns, p, minutes) => new(null, turns, p, minutes));

    /// <summary>What outcomes save, minutes.</summary>
    public static double Saving(Outlook now, IReadOnlyList<AdvisedOutcome> outcomes) => now.Saving(outcomes.Sum(o => o.Chance * o.Minutes));

    /// <summary>Where less is told apart than the readings tell, the chances are made to add up to 1 again.</summary>
    private static AdvisedOutcome[]? Of<T>(
        Outlook now, int valve, T[] answers, double[] likely, double toSave, Func<T, ValveReadings> read, Func<T, double, double, AdvisedOutcome> outcome)
    {
        var after = new EngineEstimate?[answers.Length];
        EngineEstimate After(int i) => after[i] ??= now.Estimate.With(valve, read(answers[i]));
        double all = now.Estimate.Floor > 0 ? answers.Select((_, i) => now.ChanceOf(After(i))).Sum() : 1;
        double Chance(int i) => now.ChanceOf(After(i)) / all;
        return Expectation.Minutes(now, 0, Chance, Expectation.Order(likely, toSave), i => now.MinutesWith(After(i)), now.LeastAfter(valve, toSave), toSave) is { } minutes
            ? [.. answers.Select((answer, i) => outcome(answer, Chance(i), minutes[i]))]
            : null;
    }
}
