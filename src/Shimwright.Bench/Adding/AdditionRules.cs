using Shimwright.Bench.Jobs;
using Shimwright.Bench.Texts;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Rules;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Bench.Adding;

/// <summary>What may be added to a job: not the same twice, not over what has to be seen first, and nothing wrong.</summary>
public static class AdditionRules
{
    /// <summary>Refuses an addition that could not be told from another.</summary>
    /// <param name="addition">What is to be added.</param>
    /// <exception cref="ArgumentException">It has no action of its own.</exception>
    public static void Check(Addition addition)
    {
        ArgumentNullException.ThrowIfNull(addition);
        if (addition.Action == Guid.Empty)
        {
            throw new ArgumentException("An addition needs an action of its own.", nameof(addition));
        }
    }

    /// <summary>Why an addition is not made to the sheet as it is, or null where it is.</summary>
    /// <param name="sheet">The job.</param>
    /// <param name="addition">What is to be added.</param>
    /// <returns>The answer to who sent it, or null.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static AddResult? Reject(JobSheet sheet, Addition addition)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(addition);
        JobFact[] before = [.. sheet.Entries.Where(e => e.Action == addition.Action).Select(e => e.Fact)];
        if (before.Length > 0)
        {
            return IsSame(before, addition.Facts)
                ? new(AddOutcome.SavedBefore, [], [])
                : new(AddOutcome.Reused, [new("action", "this was sent before with different content", "load the job again, and send it as a new action")], []);
        }

        if (addition.Facts.Count == 0)
        {
            return new(AddOutcome.Refused, [new("facts", "nothing was sent", "send at least one fact")], []);
        }

        if (!PlainText.CanNameADevice(addition.Device))
        {
            return new(AddOutcome.Refused, [new("device", "the device has no name that can be kept", $"allowed is a text of up to {PlainText.LongestName} characters")], []);
        }

        IReadOnlyList<JobEntry> unseen = sheet.Unseen(addition.Facts, addition.Seen, addition.AlsoSeen);
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

    /// <summary>Whether facts are those that were kept. What was free in the drawer was written down with them, and is another thing by now.</summary>
    private static bool IsSame(IReadOnlyList<JobFact> kept, IReadOnlyList<JobFact> sent)
    {
        bool states = kept.Count(f => f is StockStated) == sent.Count(f => f is StockStated);
        return sent.All(FactJson.CanBeKept)
            && kept.Where(f => states || f is not StockStated).Select(Told).SequenceEqual(sent.Where(f => states || f is not StockStated).Select(Told), StringComparer.Ordinal);
    }

    private static string Told(JobFact fact) => FactJson.Write(fact is StockStated { FromShop: true } stock ? stock with { Drawer = [] } : fact);
}
