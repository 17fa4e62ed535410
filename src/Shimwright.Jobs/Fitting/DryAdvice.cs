using Shimwright.Domain.Advice;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Fitting;

/// <summary>What pays while shims are going in: a dry fit, or, once a camshaft lies dry, another reading under it.</summary>
public static class DryAdvice
{
    /// <summary>What pays.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The answer; null where no camshaft can be laid down dry, or something is missing.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static NextResult? Of(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        IReadOnlyList<string> ready = DryFits.Ready(sheet);
        return ready.Count == 0 ? null : ready.Any(g => DryFits.IsFelt(sheet, g)) ? Felt(sheet) : Worth(sheet, ready);
    }

    /// <summary>The plan as it can be carried on from the dry fits; null where nothing was felt dry, or something is missing.</summary>
    /// <param name="sheet">The job.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="sheet"/> is null.</exception>
    public static PlanResult? Plan(JobSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return DryFits.Ready(sheet).Any(g => DryFits.IsFelt(sheet, g)) && JobSheetFile.Read(sheet, JobPurpose.SecondPlan).Job is { } job
            ? PlanResult.Of(job.NextRound())
            : null;
    }

    /// <summary>What it is worth to feel the shims before their camshaft goes down for good: as much as it was before anything was lifted.</summary>
    private static NextResult? Worth(JobSheet sheet, IReadOnlyList<string> ready)
    {
        if (JobSheetFile.Read(sheet, JobPurpose.Next).Job is not { } job)
        {
            return null;
        }

        AdviceRequest request = job.ToAdviceRequest();
        var advice = NextResult.Of(job, Advisor.For(request.With(new ActionMinutes(null, null, null, null, null, request.Minutes.DryFit))));
        NextRow[] rows = [.. advice.Next.Where(n => ready.Contains(n.Access))];
        return advice with { Next = rows, PlanNow = rows.Length == 0 };
    }

    /// <summary>Only under a camshaft that lies there can anything be felt.</summary>
    private static NextResult? Felt(JobSheet sheet)
    {
        if (JobSheetFile.Read(sheet, JobPurpose.SecondNext).Job is not { } job)
        {
            return null;
        }

        Job round = job.NextRound();
        IEnumerable<string> off = sheet.Engine.Groups.Where(g => !DryFits.IsFelt(sheet, g));
        return NextResult.Of(round, Advisor.For(round.ToAdviceRequest().WithOff(off).Without(ActionKind.Depth).Without(ActionKind.DryFit)));
    }
}
