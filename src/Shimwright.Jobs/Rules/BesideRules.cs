using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Jobs.Rules;

/// <summary>What may be said beside the work.</summary>
internal static class BesideRules
{
    public static IReadOnlyList<JobProblem> ProblemsOf(JobNumbered number) => LineProblems("number", number.Number, JobNumbered.Longest);

    public static IReadOnlyList<JobProblem> ProblemsOf(JobSheet sheet, PhotoKept photo)
    {
        List<JobProblem> problems = [.. LineProblems("caption", photo.Caption, PhotoKept.LongestCaption)];
        if (!PhotoKept.Kinds.Contains(photo.Shows))
        {
            problems.Add(new("shows", $"found \"{photo.Shows}\"", $"allowed is {string.Join(", ", PhotoKept.Kinds)}"));
        }

        if (photo.Photo == Guid.Empty)
        {
            problems.Add(new("photo", "found no id of a photo", "name the photo"));
        }

        int others = sheet.Photos.Count(p => !p.Removed && p.Photo != photo.Photo);
        if (!photo.Removed && others >= PhotoKept.Most)
        {
            problems.Add(new("photo", FormattableString.Invariant($"the job has {others} photos"), FormattableString.Invariant($"allowed are {PhotoKept.Most}; remove one first")));
        }

        return problems;
    }

    private static IReadOnlyList<JobProblem> LineProblems(string name, string? text, int longest) =>
        text is null ? [new(name, "found no text", "a text is needed")]
        : text.Length > longest ? [new(name, $"found {text.Length} characters", $"allowed are {longest}")]
        : text.Any(char.IsControl) ? [new(name, "found more than one line", "write one line")]
        : [];
}
