using System.Text.Json.Serialization;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>An estimate inside a row; lengths in mm.</summary>
/// <param name="Mean">Mean of the clearance.</param>
/// <param name="Sd">Its standard deviation.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
/// <param name="InBand">The chance of being in band.</param>
/// <param name="Status">in, out or unsettled.</param>
public sealed record EstimateRow(double Mean, [property: Bounds(0)] double Sd, double Low, double High, [property: Bounds(0, 1)] double InBand, [property: Words(typeof(ClearanceStatus))] string Status)
{
    internal static EstimateRow Of(ClearanceEstimate e) => new(
        Rounding.Length(e.Mean), Rounding.Length(e.StandardDeviation), Rounding.Length(e.Low), Rounding.Length(e.High),
        Rounding.Chance(e.InBand), Words.Of(e.Status));
}

/// <summary>A thickness and how it was found.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
public sealed record ThicknessRow(double Thickness, [property: Words("marked", "calliper", "micrometer")] string By)
{
    internal static ThicknessRow? Of(Thickness? t) => t is null ? null : new(Rounding.Length(t.Millimetres), t.By.Name);
}

/// <summary>A shim to fit and where it comes from.</summary>
/// <param name="Thickness">The thickness, mm.</param>
/// <param name="By">marked, calliper or micrometer.</param>
/// <param name="Source">drawer, engine or buy.</param>
/// <param name="FromValve">The valve that gives it, where it comes out of the engine.</param>
public sealed record FittedRow(
    double Thickness, [property: Words("marked", "calliper", "micrometer")] string By, [property: Words(typeof(ShimSource))] string Source, string? FromValve)
{
    /// <summary>What is marked on a shim that was measured, mm; null where it was not measured, or its mark is not known.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Marked { get; init; }
}

/// <summary>The clearance expected afterwards; lengths in mm.</summary>
/// <param name="Mean">Mean.</param>
/// <param name="Sd">Standard deviation.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
public sealed record AfterRow(double Mean, [property: Bounds(0)] double Sd, double Low, double High);

/// <summary>One valve of a plan.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Estimate">What was found.</param>
/// <param name="Action">keep, fit or turn.</param>
/// <param name="From">The thickness in it, or null.</param>
/// <param name="To">The thickness to fit, or null.</param>
/// <param name="After">What is expected afterwards, or null.</param>
/// <param name="Chance">The chance that it passes; null where it is stranded.</param>
/// <param name="Turns">Turns of the screw, positive for more clearance; null for shims.</param>
/// <param name="Working">The arithmetic in one line.</param>
public sealed record PlanRow(
    string Valve, EstimateRow Estimate, [property: Words(typeof(ValveAction))] string Action, ThicknessRow? From, FittedRow? To,
    AfterRow? After, [property: Bounds(0, 1)] double? Chance, double? Turns, string Working)
{
    internal static PlanRow Of(PlannedValve valve, Engine engine, IReadOnlyList<double> blades, bool hasHorizon) => new(
        valve.Valve.Id,
        EstimateRow.Of(valve.Estimate),
        Words.Of(valve.Action),
        ThicknessRow.Of(valve.From),
        valve is { To: { } to, Source: { } source }
            ? new FittedRow(
                Rounding.Length(to.Millimetres), to.By.Name, Words.Of(source),
                valve.FromValve is { } giver ? engine.Valves[giver].Id : null)
            {
                Marked = to.Marked,
            }
            : null,
        valve.After is { } after
            ? new AfterRow(Rounding.Length(after.Mean), Rounding.Length(after.StandardDeviation), Rounding.Length(after.Low), Rounding.Length(after.High))
            : null,
        valve.Chance is { } chance ? Rounding.Chance(chance) : null,
        valve.Turns is { } turns ? Rounding.Turns(turns) : null,
        WorkingWords.Of(valve, blades: blades, hasHorizon: hasHorizon));
}

/// <summary>A stranded valve and why.</summary>
/// <param name="Valve">The valve.</param>
/// <param name="Why">Why no thickness at hand serves it.</param>
public sealed record StrandedRow(string Valve, string Why);

/// <summary>Shims of one size to buy.</summary>
/// <param name="Thickness">The size, mm.</param>
/// <param name="Count">How many.</param>
public sealed record BoughtRow(double Thickness, int Count);

/// <summary>Another plan worth considering.</summary>
/// <param name="Opened">The access groups that it opens.</param>
/// <param name="ChanceAll">The chance that all pass the first time.</param>
/// <param name="Minutes">Work and what is to come, minutes.</param>
/// <param name="Work">What is opened, changed and bought, minutes.</param>
/// <param name="ToCome">Expected rework, minutes.</param>
/// <param name="Bought">What is to be bought.</param>
/// <param name="Chosen">Whether it is the advised one.</param>
/// <param name="Valves">Its lines, in the engine's order.</param>
public sealed record AlternativeRow(
    IReadOnlyList<string> Opened, [property: Bounds(0, 1)] double ChanceAll, [property: Bounds(0)] double Minutes, [property: Bounds(0)] double Work, [property: Bounds(0)] double ToCome, IReadOnlyList<BoughtRow> Bought, bool Chosen,
    IReadOnlyList<PlanRow> Valves);

/// <summary>The answer of the command plan.</summary>
/// <param name="Format">shimwright-plan/1.</param>
/// <param name="Valves">The lines of the advised plan, in the engine's order.</param>
/// <param name="Opened">The access groups that it opens.</param>
/// <param name="Stranded">The valves that no thickness at hand serves.</param>
/// <param name="ChanceAll">The chance that all pass the first time.</param>
/// <param name="Minutes">Work and what is to come, minutes.</param>
/// <param name="Work">What is opened, changed and bought, minutes.</param>
/// <param name="ToCome">Expected rework, minutes.</param>
/// <param name="First">What is worth doing before it, or null.</param>
/// <param name="Bought">What is to be bought.</param>
/// <param name="Alternatives">All plans on offer, the advised one among them.</param>
/// <param name="Cautions">What to bear in mind.</param>
public sealed record PlanResult(
    [property: Words(PlanResult.FormatName)] string Format, IReadOnlyList<PlanRow> Valves, IReadOnlyList<string> Opened, IReadOnlyList<StrandedRow> Stranded,
    [property: Bounds(0, 1)] double ChanceAll, [property: Bounds(0)] double Minutes, [property: Bounds(0)] double Work, [property: Bounds(0)] double ToCome, NextRow? First, IReadOnlyList<BoughtRow> Bought,
    IReadOnlyList<AlternativeRow> Alternatives, IReadOnlyList<string> Cautions)
{
    /// <summary>What its member format says.</summary>
    public const string FormatName = "shimwright-plan/1";

    /// <summary>Plans a job that was read for planning.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static PlanResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Of(job, Planner.Plan(job.ToPlanRequest()));
    }

    /// <summary>The same with what is worth doing before it.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> is null.</exception>
    public static PlanResult WithFirst(Job job) => Of(job) with { First = NextResult.FirstOf(job) };

    /// <summary>The answer for a plan that is at hand.</summary>
    /// <param name="job">The job.</param>
    /// <param name="plan">Its plan.</param>
    /// <returns>The answer.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="job"/> or <paramref name="plan"/> is null.</exception>
    public static PlanResult Of(Job job, PlanChoice plan)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(plan);
        // Plans share most of their lines, and a line is written once.
        Dictionary<PlannedValve, PlanRow> rows = new(ReferenceEqualityComparer.Instance);
        IReadOnlyList<PlanRow> RowsOf(ShimPlan of)
        {
            foreach (PlannedValve valve in of.Valves)
            {
                if (!rows.ContainsKey(valve))
                {
                    rows.Add(valve, PlanRow.Of(valve, job.Engine, job.Blades, job.Horizon > 0));
                }
            }

            return [.. of.Valves.Select(v => rows[v])];
        }

        ShimPlan chosen = plan.Chosen;
        return new(
            FormatName,
            RowsOf(chosen),
            chosen.Opened,
            [.. chosen.Stranded.Select(s => new StrandedRow(job.Engine.Valves[s.Valve].Id, StrandedWords.Of(s.Reason, job.Engine, LengthWords.Millimetres)))],
            Rounding.Chance(chosen.ChanceAll),
            Rounding.Minutes(chosen.Minutes),
            Rounding.Minutes(chosen.WorkMinutes),
            Rounding.Minutes(chosen.ToComeMinutes),
            First: null,
            BoughtOf(chosen),
            [.. plan.Alternatives.Select(a => new AlternativeRow(
                a.Opened, Rounding.Chance(a.ChanceAll), Rounding.Minutes(a.Minutes), Rounding.Minutes(a.WorkMinutes), Rounding.Minutes(a.ToComeMinutes),
                BoughtOf(a), ReferenceEquals(a, chosen), RowsOf(a)))],
            Results.Cautions.OfPlan(job, plan, LengthWords.Millimetres));
    }

    private static IReadOnlyList<BoughtRow> BoughtOf(ShimPlan plan) =>
        [.. plan.Bought.Select(b => new BoughtRow(Rounding.Length(b.Thickness.Millimetres), b.Count))];
}
