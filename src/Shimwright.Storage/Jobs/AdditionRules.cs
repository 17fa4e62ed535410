using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Rules;
using Shimwright.Jobs.Sheets;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Jobs;

/// <summary>What may be added to a job: not the same twice, not over what has to be seen first, and nothing wrong.</summary>
internal static class AdditionRules
{
    /// <summary>Why an addition is not made to the sheet as it is, or null where it is.</summary>
    public static AddResult? Reject(JobSheet sheet, Addition addition)
    {
        if (sheet.Entries.Any(e => e.Action == addition.Action))
        {
            return new(AddOutcome.SavedBefore, [], []);
        }

        if (addition.Facts.Count == 0)
        {
            return new(AddOutcome.Refused, [new("facts", "nothing was sent", "send at least one fact")], []);
        }

        if (!PlainText.CanNameADevice(addition.Device))
        {
            return new(AddOutcome.Refused, [new("device", "the device has no name that can be kept", $"allowed is a text of up to {BenchContext.LongestName} characters")], []);
        }

        IReadOnlyList<JobEntry> unseen = sheet.Unseen(addition.Facts, addition.Seen, addition.Device);
        if (unseen.Count > 0)
        {
            return new(AddOutcome.Conflict, [], unseen);
        }

        List<JobProblem> problems = [];
        foreach (JobFact fact in addition.Facts)
        {
            problems.AddRange(SheetRules.ProblemsOf(sheet, fact));
            sheet = sheet.With(fact);
        }

        return problems.Count > 0 ? new(AddOutcome.Refused, [.. problems.Distinct()], []) : null;
    }
}
