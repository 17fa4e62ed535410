using Shimwright.Cli.Running;
using Shimwright.Domain.Planning;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Wording;
using Spectre.Console;

namespace Shimwright.Cli.Answers;

/// <summary>What plan prints.</summary>
internal sealed class PlanAnswer(Job job) : IJobAnswer
{
    private readonly PlanChoice _plan = Planner.Plan(job.ToPlanRequest());
    private readonly Lazy<NextRow?> _first = new(() => NextResult.FirstOf(job));

    public int Exit => _plan.Chosen.Stranded.Count > 0 ? ExitCode.Stranded : ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(PlanResult.Of(job, _plan) with { First = _first.Value }, indented);

    public void Show(Page page) => Show(page, withWorkOrder: true);

    public void Show(Page page, bool withWorkOrder)
    {
        ShimPlan plan = _plan.Chosen;
        page.Heading($"Plan for {job.Engine.Name} ({page.UnitName}, at 20 degrees C)");
        ValveTable(page, plan);
        page.Heading("Working");
        page.Console.Write(WorkingGrid(page, plan));
        page.Console.WriteLine();
        Summary(page, plan);
        if (_plan.Alternatives.Count > 1)
        {
            page.Heading("Work now against rework later");
            page.Console.Write(AlternativesTable.Of(page, _plan));
            page.Console.WriteLine();
        }

        CautionsAndWork(page, withWorkOrder);
    }

    private static void ValveTable(Page page, ShimPlan plan) => page.Rows<(int Place, PlannedValve Of)>(
        plan.Valves.Index(),
        new("Valve", r => r.Of.Valve.Id),
        new("Band", r => page.Band(r.Of.Valve.Band)),
        new("Estimate (95 %)", r => $"{page.Clearance(r.Of.Estimate.Mean)} ({page.Clearance(r.Of.Estimate.Low)} to {page.Clearance(r.Of.Estimate.High)})", Shown.Wide),
        new("Estimate", r => page.Clearance(r.Of.Estimate.Mean), Shown.Narrow),
        new("Against the band", r => BandBar.Of(r.Of.Valve.Band, r.Of.Estimate), Shown.Roomy),
        new("Do", r => r.Of.IsStranded ? "stranded" : Words.Of(r.Of.Action)),
        new("From", r => From(page, r.Place, plan)),
        new("To", r => To(page, r.Of, plan)),
        new("Then", r => r.Of.After is { } after ? page.Clearance(after.Mean) : "-", Shown.Wide),
        new("Chance", r => r.Of.Chance is { } chance ? Page.Chance(chance) : "-"));

    /// <summary>The shim that is there, and who takes it where it moves.</summary>
    private static string From(Page page, int v, ShimPlan plan)
    {
        if (plan.Valves[v].From is not { } from)
        {
            return "screw";
        }

        PlannedValve? taker = plan.Valves.FirstOrDefault(other => other.FromValve == v);
        return taker is null ? page.Shim(from.Millimetres) : $"{page.Shim(from.Millimetres)} to {taker.Valve.Id}";
    }

    private static string To(Page page, PlannedValve valve, ShimPlan plan) => valve switch
    {
        { Turns: { } turns } => WorkingWords.Flats(turns),
        { To: { } to, Source: ShimSource.Engine, FromValve: { } giver } =>
            $"{page.Shim(to.Millimetres)} from {plan.Valves[giver].Valve.Id}",
        { To: { } to, Source: ShimSource.Buy } => $"{page.Shim(to.Millimetres)} buy",
        { To: { Marked: { } mark } to } => $"{page.Shim(to.Millimetres)} drawer, marked {page.Shim(mark)}",
        { To: { } to } => $"{page.Shim(to.Millimetres)} drawer",
        _ => "-",
    };

    private Grid WorkingGrid(Page page, ShimPlan plan)
    {
        var grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(1).PadRight(2)).AddColumn(new GridColumn().PadRight(0));
        foreach (PlannedValve valve in plan.Valves)
        {
            grid.AddRow(new Text(valve.Valve.Id), new Text(WorkingWords.Of(valve, page.Clearance, job.Blades, job.Horizon > 0)));
        }

        return grid;
    }

    private void Summary(Page page, ShimPlan plan)
    {
        page.Bullets(
        [
            _first.Value is { } first
                ? $"First: {NextWords.Of(first, page.Words)} {NextWords.Worth(first.Saves)}"
                : NextWords.PlanNow,
            $"To open: {Page.ToOpen(plan)}.",
            $"To buy: {page.ToBuy(plan)}.",
            $"{Page.FirstTime(job, plan.Stranded.Count > 0)}: {Page.Chance(plan.ChanceAll)}.",
            $"Work: {Page.Minutes(plan.WorkMinutes)} min. To come: {Page.Minutes(plan.ToComeMinutes)} min, the expected cost of rework. Together: {Page.Minutes(plan.Minutes)} min.",
            .. plan.Stranded.Select(s => $"STRANDED {job.Engine.Valves[s.Valve].Id}: {StrandedWords.Of(s.Reason, job.Engine, page.Words)}."),
        ]);
    }

    private void CautionsAndWork(Page page, bool withWorkOrder)
    {
        page.OwnCautions(Cautions.OfPlan(job, _plan, page.Words));
        if (withWorkOrder)
        {
            page.Heading("Order of work");
            page.Bullets(_plan.Chosen.Valves.All(v => v.Action == ValveAction.Keep)
                ? WorkOrder.WhereNothingIsChanged(_plan.Chosen.Stranded.Count > 0)
                : WorkOrder.StepsFor(job.Engine.Valvetrain.Adjuster, lifts: _plan.Chosen.Opened.Count > 0));
            page.Paragraph(WorkOrder.Deference);
        }
    }
}
