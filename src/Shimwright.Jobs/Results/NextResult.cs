using System.Text.Json.Serialization;
using Shimwright.Domain.Advice;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Rechecking;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>A possible outcome of an action.</summary>
/// <param name="Feel">The feel of a blade: no, firm, light or loose; null for anything else.</param>
/// <param name="Turns">Whether the bucket turns; null for anything else.</param>
/// <param name="Chance">How likely it is.</param>
/// <param name="Minutes">What the best plan comes to after it, minutes.</param>
public sealed record NextOutcome([property: Words(typeof(Feel))] string? Feel, bool? Turns, [property: Bounds(0, 1)] double Chance, [property: Bounds(0)] double Minutes);

/// <summary>One thing worth doing before the plan.</summary>
/// <param name="Do">blade, bucket, micrometer, depth or dryFit.</param>
/// <param name="Valve">The valve, or null.</param>
/// <param name="Blades">The leaves to take together, mm; empty but for a blade.</param>
/// <param name="Leaves">How many they are.</param>
/// <param name="Shim">The shim to measure, or null.</param>
/// <param name="Access">The access group to lift, or null.</param>
/// <param name="Saves">How far what the best plan comes to is expected to fall, minutes.</param>
/// <param name="Takes">What it takes, minutes.</param>
/// <param name="Outcomes">Its possible outcomes, where they can be listed.</param>
public sealed record NextRow(
    [property: Words(typeof(ActionKind))] string Do, string? Valve, IReadOnlyList<double> Blades, int Leaves, FittedRow? Shim, string? Access, [property: Bounds(0)] double Saves, [property: Bounds(0)] double Takes,
    IReadOnlyList<NextOutcome> Outcomes)
{
    private const double SameBlade = 1e-6;

    /// <summary>The same as a sentence, in millimetres.</summary>
    public string Words => NextWords.Of(this, LengthWords.Millimetres);

    /// <summary>Whether the same blade or stack was tried there already in this check.</summary>
    [JsonIgnore]
    public bool IsRepeat { get; private init; }

    /// <summary>Why a verdict waits for it, whatever it saves; null for anything else.</summary>
    [JsonIgnore]
    public PassResult? Needed { get; private init; }

    /// <summary>An action as a line of an answer.</summary>
    /// <param name="action">The action.</param>
    /// <param name="check">The check that it would add to.</param>
    /// <returns>The line.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="action"/> or <paramref name="check"/> is null.</exception>
    public static NextRow Of(AdvisedAction action, EngineCheck check)
    {
        ArgumentNullException.ThrowIfNull(action);
        ArgumentNullException.ThrowIfNull(check);
        Domain.Engines.Engine engine = check.Engine;
        return new(
            Results.Words.Of(action.Kind),
            action.Valve is { } v ? engine.Valves[v].Id : null,
            [.. action.Blades.Select(Rounding.Length)],
            action.Blades.Count,
            action.Shim is { } shim
                ? new(
                    Rounding.Length(shim.Thickness.Millimetres), shim.Thickness.By.Name, Results.Words.Of(shim.Source),
                    shim.FromValve is { } from ? engine.Valves[from].Id : null)
                : null,
            action.Access,
            Rounding.Minutes(action.Saves),
            Rounding.Minutes(action.Takes),
            [.. action.Outcomes.Select(o => new NextOutcome(o.Feel is { } feel ? Results.Words.Of(feel) : null, o.Turns, Rounding.Chance(o.Chance), Rounding.Minutes(o.Minutes)))])
        {
            IsRepeat = action is { Kind: ActionKind.Blade, Valve: { } at } && check.Readings[at].Trials.Any(t =>
                t.Leaves == action.Blades.Count && Math.Abs(t.Blade - action.Blades.Sum()) < SameBlade),
        };
    }

    /// <summary>A blade that a verdict waits for.</summary>
    /// <param name="valve">The valve.</param>
    /// <param name="blade">The blade, mm.</param>
    /// <param name="takes">What it takes, minutes.</param>
    /// <param name="why">Why the valve does not pass without it.</param>
    /// <returns>The line.</returns>
    internal static NextRow Waiting(string valve, double blade, double takes, PassResult why) =>
        new("blade", valve, [Rounding.Length(blade)], 1, null, null, 0, Rounding.Minutes(takes), []) { Needed = why };
}

/// <summary>The answer of the command next.</summary>
/// <param name="Format">shimwright-next/1.</param>
/// <param name="PlanNow">Whether nothing more pays.</param>
/// <param name="Minutes">What the best plan comes to as things stand, minutes.</param>
/// <param name="ChanceAll">The chance that all pass the first time under it.</param>
/// <param name="Next">What pays, best first.</param>
public sealed record NextResult([property: Words(NextResult.FormatName)] string Format, bool PlanNow, [property: Bounds(0)] double Minutes, [property: Bounds(0, 1)] double ChanceAll, IReadOnlyList<NextRow> Next)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-next/1";

    /// <summary>What to bear in mind; left out where there is nothing.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<string>? Cautions { get; private init; }

    /// <summary>How stranded valves count, so that the chance is that of all others; null where none is.</summary>
    [JsonIgnore]
    public string? Stranded { get; private init; }

    /// <summary>The best of what pays; null where nothing does.</summary>
    [JsonIgnore]
    public NextRow? First => Next is [var first, ..] ? first : null;

    /// <summary>What is worth doing next in a job, as far as it has come.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static NextResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Of(job, Advisor.For(job.ToAdviceRequest()));
    }

    /// <summary>The best of what pays in a job, without the rest being worked out; null where nothing does.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The first line that <see cref="Of(Job)"/> gives.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static NextRow? FirstOf(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Advisor.First(job.ToAdviceRequest()) is { } action ? NextRow.Of(action, job.Check) : null;
    }

    /// <summary>The answer for advice that is at hand.</summary>
    /// <param name="job">The job.</param>
    /// <param name="advice">The advice.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> or <paramref name="advice"/> is null.</exception>
    public static NextResult Of(Job job, NextThings advice)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(advice);
        string[] stranded = [.. advice.Plan.Stranded.Select(s => job.Engine.Valves[s.Valve].Id)];
        return new(
            FormatName, advice.PlanNow, Rounding.Minutes(advice.Minutes), Rounding.Chance(advice.Plan.ChanceAll),
            [.. advice.Next.Select(n => NextRow.Of(n, job.Check))])
        {
            Cautions = advice.Unweighed > 0 ? [LeftOut.Unweighed(advice.Unweighed)] : null,
            Stranded = stranded.Length > 0 ? NextWords.Stranded(stranded) : null,
        };
    }
}
