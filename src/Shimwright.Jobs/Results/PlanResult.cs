using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Wording;

namespace Shimwright.Jobs.Results;

/// <summary>An estimate inside a row; lengths in mm.</summary>
public sealed record EstimateRow(double Mean, double Sd, double Low, double High, double InBand, string Status)
{
    internal static EstimateRow Of(ClearanceEstimate e) => new(
        Rounding.Length(e.Mean), Rounding.Length(e.StandardDeviation), Rounding.Length(e.Low), Rounding.Length(e.High),
        Rounding.Chance(e.InBand), Words.Of(e.Status));
}

/// <summary>A thickness and how it was found.</summary>
public sealed record ThicknessRow(double Thickness, string By)
{
    internal static ThicknessRow? Of(Thickness? t) => t is null ? null : new(Rounding.Length(t.Millimetres), t.By.Name);
}

/// <summary>A shim to fit and where it comes from.</summary>
public sealed record FittedRow(double Thickness, string By, string Source, string? FromValve);

/// <summary>The clearance expected afterwards; lengths in mm.</summary>
public sealed record AfterRow(double Mean, double Sd, double Low, double High);

/// <summary>One valve of a plan.</summary>
public sealed record PlanRow(
    string Valve, EstimateRow Estimate, string Action, ThicknessRow? From, FittedRow? To,
    AfterRow? After, double? Chance, double? Turns, string Working)
{
    internal static PlanRow Of(PlannedValve valve, Engine engine) => new(
        valve.Valve.Id,
        EstimateRow.Of(valve.Estimate),
        Words.Of(valve.Action),
        ThicknessRow.Of(valve.From),
        valve is { To: { } to, Source: { } source }
            ? new FittedRow(
                Rounding.Length(to.Millimetres), to.By.Name, Words.Of(source),
                valve.FromValve is { } giver ? engine.Valves[giver].Id : null)
            : null,
        valve.After is { } after
            ? new AfterRow(Rounding.Length(after.Mean), Rounding.Length(after.StandardDeviation), Rounding.Length(after.Low), Rounding.Length(after.High))
            : null,
        valve.Chance is { } chance ? Rounding.Chance(chance) : null,
        valve.Turns is { } turns ? Rounding.Turns(turns) : null,
        WorkingWords.Of(valve));
}

/// <summary>A stranded valve and why.</summary>
public sealed record StrandedRow(string Valve, string Why);

/// <summary>Shims of one size to buy.</summary>
public sealed record BoughtRow(double Thickness, int Count);

/// <summary>Another plan worth considering.</summary>
public sealed record AlternativeRow(
    IReadOnlyList<string> Opened, double ChanceAll, double Minutes, IReadOnlyList<BoughtRow> Bought, bool Chosen, IReadOnlyList<PlanRow> Valves);

/// <summary>The answer of the command plan.</summary>
public sealed record PlanResult(
    string Format, IReadOnlyList<PlanRow> Valves, IReadOnlyList<string> Opened, IReadOnlyList<StrandedRow> Stranded,
    double ChanceAll, double Minutes, IReadOnlyList<BoughtRow> Bought, IReadOnlyList<AlternativeRow> Alternatives, IReadOnlyList<string> Cautions)
{
    /// <summary>Plans a job that was read for planning.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The answer.</returns>
    public static PlanResult Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Of(job, Planner.Plan(job.ToPlanRequest()));
    }

    /// <summary>The answer for a plan that is at hand.</summary>
    /// <param name="job">The job.</param>
    /// <param name="plan">Its plan.</param>
    /// <returns>The answer.</returns>
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
                    rows.Add(valve, PlanRow.Of(valve, job.Engine));
                }
            }

            return [.. of.Valves.Select(v => rows[v])];
        }

        ShimPlan chosen = plan.Chosen;
        return new(
            "shimwright-plan/1",
            RowsOf(chosen),
            chosen.Opened,
            [.. chosen.Stranded.Select(s => new StrandedRow(job.Engine.Valves[s.Valve].Id, StrandedWords.Of(s.Reason, job.Engine, LengthWords.Millimetres)))],
            Rounding.Chance(chosen.ChanceAll),
            Rounding.Minutes(chosen.Minutes),
            BoughtOf(chosen),
            [.. plan.Alternatives.Select(a => new AlternativeRow(
                a.Opened, Rounding.Chance(a.ChanceAll), Rounding.Minutes(a.Minutes), BoughtOf(a), ReferenceEquals(a, chosen), RowsOf(a)))],
            Results.Cautions.OfPlan(job, plan, LengthWords.Millimetres));
    }

    private static IReadOnlyList<BoughtRow> BoughtOf(ShimPlan plan) =>
        [.. plan.Bought.Select(b => new BoughtRow(Rounding.Length(b.Thickness.Millimetres), b.Count))];
}
