using Shimwright.Cli.Commands;
using Shimwright.Domain.Planning;
using Shimwright.Jobs;
using Shimwright.Jobs.Guidance;
using Shimwright.Jobs.Results;
using Spectre.Console;

namespace Shimwright.Cli.Tables;

/// <summary>What plan prints.</summary>
internal sealed class PlanAnswer(Job job) : IJobAnswer
{
    private readonly PlanChoice _plan = Planner.Plan(job.ToPlanRequest());
    private PlanResult? _result;

    public int Exit => _plan.Chosen.Stranded.Count > 0 ? ExitCode.Stranded : ExitCode.Done;

    private PlanResult Result => _result ??= PlanResult.Of(job, _plan);

    public string Json(bool indented) => ResultJson.Write(Result, indented);

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
        }

        Cautions(page, withWorkOrder);
    }

    private static Table ValveTable(Page page, ShimPlan plan)
    {
        Table table = new Table().SimpleBorder().AddColumns(
            "Valve", "Band", "Estimate (95 %)", "Against the band", "Do", "From", "To", "Then", "Chance");
        page.KeepWhole(table, 0, 1, 2, 3, 4, 5, 7, 8);
        foreach (PlannedValve valve in plan.Valves)
        {
            var e = valve.Estimate;
            table.AddRow(
                new Text(valve.Valve.Id),
                new Text($"{page.Clearance(valve.Valve.Band.Low)}-{page.Clearance(valve.Valve.Band.High)}"),
                new Text($"{page.Clearance(e.Mean)} ({page.Clearance(e.Low)} to {page.Clearance(e.High)})"),
                new Text(BandBar.Of(valve.Valve.Band, e)),
                new Text(valve.IsStranded ? "stranded" : Words.Of(valve.Action)),
                new Text(valve.From is { } from ? page.Shim(from.Millimetres) : "screw"),
                new Text(To(page, valve, plan)),
                new Text(valve.After is { } after ? page.Clearance(after.Mean) : "-"),
                new Text(valve.Chance is { } chance ? Page.Chance(chance) : "-"));
        }

        return table;
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
            : string.Join(", ", plan.Bought.Select(b => $"{b.Count} of {page.Shim(b.Thickness.Millimetres)}"));
        string all = plan.Stranded.Count == 0 ? "Chance that all pass the first time" : "Chance that all but the stranded pass the first time";
        page.Bullets(
        [
            $"To open: {(plan.Opened.Count == 0 ? "nothing" : string.Join(", ", plan.Opened))}.",
            $"To buy: {bought}.",
            $"{all}: {Page.Chance(plan.ChanceAll)}.",
            $"Expected cost: {Page.Minutes(plan.Minutes)} min, a second round counted as often as it is to be expected.",
            .. plan.Stranded.Select(s => $"STRANDED {job.Engine.Valves[s.Valve].Id}: {s.Why}."),
        ]);
    }

    private void Cautions(Page page, bool withWorkOrder)
    {
        IReadOnlyList<string> own = Result.Cautions;
        if (own.Count > 0)
        {
            page.Heading("Cautions for this job");
            page.Bullets(own);
        }

        if (withWorkOrder)
        {
            page.Heading("Order of work");
            page.Bullets(WorkOrder.StepsFor(job.Engine.Valvetrain.Adjuster));
            page.Paragraph(WorkOrder.Deference);
        }
    }
}
