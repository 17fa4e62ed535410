using Shimwright.Domain.Readings;

namespace Shimwright.Domain.Advice;

/// <summary>
/// What a reading is worth: what the best plan comes to now, less what it is expected to come to afterwards. Exact over the four feels of
/// a blade and the two answers of a bucket: each outcome is planned from.
/// </summary>
internal static class TrialWorth
{
    private static readonly Feel[] Feels = Enum.GetValues<Feel>();

    /// <summary>The outcomes of a blade or stack at a valve.</summary>
    public static IReadOnlyList<AdvisedOutcome> OfBlade(Outlook now, int valve, double blade, int leaves) => Of(
        now, valve, Feels, feel => new ValveReadings([new BladeTrial(blade, feel, leaves)]), (feel, p, minutes) => new(feel, null, p, minutes));

    /// <summary>The outcomes of turning the bucket by hand.</summary>
    public static IReadOnlyList<AdvisedOutcome> OfBucket(Outlook now, int valve) => Of(
        now, valve, [true, false], turns => new ValveReadings(bucketTurns: [turns]), (turns, p, minutes) => new(null, turns, p, minutes));

    /// <summary>What outcomes save, minutes.</summary>
    public static double Saving(Outlook now, IReadOnlyList<AdvisedOutcome> outcomes) => now.Saving(outcomes.Sum(o => o.Chance * o.Minutes));

    /// <summary>Where less is told apart than the readings tell, the chances are made to add up to 1 again.</summary>
    private static AdvisedOutcome[] Of<T>(Outlook now, int valve, T[] answers, Func<T, ValveReadings> read, Func<T, double, double, AdvisedOutcome> outcome)
    {
        EngineEstimate[] after = [.. answers.Select(answer => now.Estimate.With(valve, read(answer)))];
        double[] chances = Array.ConvertAll(after, now.ChanceOf);
        double all = now.Estimate.Floor > 0 ? chances.Sum() : 1;
        return [.. answers.Select((answer, i) => outcome(answer, chances[i] / all, now.MinutesWith(after[i])))];
    }
}
