using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Members;

namespace Shimwright.Bench.InStep;

/// <summary>What became of a deed on the shared bench.</summary>
/// <param name="Deed">The deed.</param>
/// <param name="Outcome">What became of it.</param>
/// <param name="Problems">What is wrong with it.</param>
/// <param name="Unseen">The numbers of the entries that came in between and have to be seen first.</param>
public sealed record DeedAnswer(Guid Deed, AddOutcome Outcome, IReadOnlyList<JobProblem> Problems, IReadOnlyList<int> Unseen)
{
    /// <summary>Whether it is on the disk.</summary>
    public bool IsTaken => Outcome is AddOutcome.Saved or AddOutcome.SavedBefore;

    internal static DeedAnswer Saved(Deed deed) => new(deed.Id, AddOutcome.Saved, [], []);

    internal static DeedAnswer Refused(Deed deed, params IReadOnlyList<JobProblem> problems) => new(deed.Id, AddOutcome.Refused, problems, []);

    internal static DeedAnswer Conflict(Deed deed, string path, string found, string allowed) => new(deed.Id, AddOutcome.Conflict, [new(path, found, allowed)], []);

    internal static DeedAnswer Of(Deed deed, AddResult result) => new(deed.Id, result.Outcome, result.Problems, [.. result.Unseen.Select(e => e.Number)]);

    internal static DeedAnswer Of(Deed deed, DrawerResult result) => new(deed.Id, result.Outcome, result.Problems, []);
}
