using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs;

/// <summary>What a form of a job brought: facts to add, or what is wrong.</summary>
public sealed record SentFacts(ActionForm Form, IReadOnlyList<JobFact> Facts, IReadOnlyList<JobProblem> Problems)
{
    public static SentFacts Of(ActionForm form, Func<List<JobProblem>, JobFact?> read)
    {
        List<JobProblem> problems = [];
        JobFact? fact = read(problems);
        return new(form, problems.Count == 0 && fact is not null ? [fact] : [], problems);
    }
}
