using Shimwright.Domain.Shims;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Rules;

/// <summary>What a plan that is accepted must be: one that can be made on this job, with a line for every valve.</summary>
internal static class AcceptedPlanRules
{
    public static IReadOnlyList<JobProblem> ProblemsOf(JobSheet sheet, PlanAccepted plan)
    {
        IReadOnlyList<JobProblem> notReady = JobSheetFile.Read(sheet, JobPurpose.Plan).Problems;
        if (notReady.Count > 0)
        {
            return notReady;
        }

        string[] valves = [.. sheet.Engine.Valves.Select(v => v.Id)];
        string[] lines = [.. plan.Valves.Select(r => r.Valve)];
        HashSet<string> groups = [.. sheet.Engine.AccessGroups];
        return
        [
            .. lines.Concat(plan.Stranded.Select(s => s.Valve)).Where(v => !valves.Contains(v)).Distinct().Select(v => SheetRules.Unknown(sheet, v)),
            .. valves.Where(v => lines.Count(l => l == v) != 1)
                .Select(v => new JobProblem("plan", $"found {lines.Count(l => l == v)} lines for valve \"{v}\"", "a plan has one line for every valve")),
            .. plan.Opened.Where(g => !groups.Contains(g))
                .Select(g => new JobProblem("opened", $"found \"{g}\", which is no access group of this engine", $"its groups are {string.Join(", ", groups)}")),
            .. plan.Valves.Where(r => !IsSound(r, sheet.Engine.Valvetrain.HasShims))
                .Select(r => new JobProblem("plan", $"the line of valve \"{r.Valve}\" says \"{r.Action}\" and not with what", "a line keeps, fits a thickness, or turns a screw by so many turns")),
        ];
    }

    private static bool IsSound(PlanRow row, bool hasShims) => row.Action switch
    {
        "keep" => true,
        "fit" => hasShims && row is { From: not null, To.Thickness: >= Thickness.Thinnest and <= Thickness.Thickest },
        "turn" => !hasShims && row.Turns is not null,
        _ => false,
    };
}
