using Shimwright.Cli.Commands;
using Shimwright.Domain.Planning;
using Shimwright.Domain.Readings;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Spectre.Console;

namespace Shimwright.Cli.Tables;

/// <summary>What plan prints.</summary>
internal sealed class PlanAnswer(Job job) : IJobAnswer
{
    private readonly PlanChoice _plan = Planner.Plan(job.ToPlanRequest());

    public int Exit => _plan.Chosen.Stranded.Count > 0 ? ExitCode.Stranded : ExitCode.Done;

    public string Json(bool indented) => ResultJson.Write(PlanResult.Of(job, _plan), indented);

    public void Show(Page page) => Show(page, withWorkOrder: true);

    public void Show(Page page, bool withWorkOrder)
    {
        ShimPlan plan = _plan.Chosen;
        page.Heading($"Plan for {job.Engine.Name} ({page.UnitName}, at 20 degrees C)");
        page.Console.Write(ValveTable(page, plan));
        page.Heading("Working");
        page.Console.Write(WorkingGrid(page, plan));
        page.Console.WriteLine();
        Summary(page, plan);
        if (_plan.Alternatives.Count > 1)
        {
            page.Heading("Chance against minutes");
            page.Console.Write(AlternativesTable.Of(page, _plan));
            page.Console.WriteLine();
        }

        Cautions(page, withWorkOrder);
    }

    private static Table ValveTable(Page page, ShimPlan plan)
    {
        string[] columns = page.IsWide
            ? ["Valve", "Band", "Estimate (95 %)", "Against the band", "Do", "From", "To", "Then", "Chance"]
            : ["Valve", "Band", "Estimate", "Do", "From", "To", "Chance"];
        Table table = Page.Table(columns);
        foreach ((int v, PlannedValve valve) in plan.Valves.Index())
        {
            ClearanceEstimate e = valve.Estimate;
            string mean = page.Clearance(e.Mean);
            Dictionary<string, string> cells = new()
            {
                ["Valve"] = valve.Valve.Id,
                ["Band"] = page.Band(valve.Valve.Band),
                ["Estimate"] = mean,
                ["Estimate (95 %)"] = $"{mean} ({page.Clearance(e.Low)} to {page.Clearance(e.High)})",
                ["Against the band"] = BandBar.Of(valve.Valve.Band, e),
                ["Do"] = valve.IsStranded ? "stranded" : Words.Of(valve.Action),
                ["From"] = From(page, v, plan),
                ["To"] = To(page, valve, plan),
                ["Then"] = valve.After is { } after ? page.Clearance(after.Mean) : "-",
                ["Chance"] = valve.Chance is { } chance ? Page.Chance(chance) : "-",
            };
            table.AddRow(columns.Select(c => new Text(cells[c])));
        }

        return table;
    }

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
        { Turns: { } turns } => Working.Flats(turns),
        { To: { } to, Source: ShimSource.Engine, FromValve: { } giver } =>
            $"{page.Shim(to.Millimetres)} from {plan.Valves[giver].Valve.Id}",
        { To: { } to, Source: ShimSource.Buy } => $"{page.Shim(to.Millimetres)} buy",
        { To: { } to } => $"{page.Shim(to.Millimetres)} drawer",
        _ => "-",
    };

    private static Grid WorkingGrid(Page page, ShimPlan plan)
    {
        var grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(1).PadRight(2)).AddColumn(new GridColumn().PadRight(0));
        foreach (PlannedValve valve in plan.Valves)
        {
            grid.AddRow(new Text(valve.Valve.Id), new Text(Working.Of(valve, page.Clearance)));
        }

        return grid;
    }

    private void Summary(Page page, ShimPlan plan)
    {
        string bought = plan.Bought.Count == 0
            ? "nothing"
            : string.Join(", ", plan.Bought.Select(b => $"{b.Count} x {page.Shim(b.Thickness.Millimetres)}"));
        string all = plan.Stranded.Count == 0 ? "Chance that all pass the first time" : "Chance that all but the stranded pass the first time";
        page.Bullets(
        [
            $"To open: {(plan.Opened.Count == 0 ? "nothing" : string.Join(", ", plan.Opened))}.",
            $"To buy: {bought}.",
            $"{all}: {Page.Chance(plan.ChanceAll)}.",
            $"Work: {Page.Minutes(plan.WorkMinutes)} min; {Page.Minutes(plan.Minutes)} min with a second round counted as often as it is to be expected.",
            .. plan.Stranded.Select(s => $"STRANDED {job.Engine.Valves[s.Valve].Id}: {s.Describe(page.Words)}."),
        ]);
    }

    private void Cautions(Page page, bool withWorkOrder)
    {
        IReadOnlyList<string> own = PlanResult.Of(job, _plan, page.Words).Cautions;
        if (own.Count > 0)
        {
            page.Heading("Cautions for this job");
            page.Bullets(own);
        }

        if (withWorkOrder)
        {
            page.Heading("Order of work");
            page.Bullets(_plan.Chosen.Opened.Count == 0
                ? WorkOrder.NothingToDo
                : WorkOrder.StepsFor(job.Engine.Valvetrain.Adjuster));
            page.Paragraph(WorkOrder.Deference);
        }
    }
}
