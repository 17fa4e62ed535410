using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Adding;

/// <summary>What the drawer has to say to a job, while it is held: sizes of the diameter that the job uses.</summary>
/// <param name="Diameter">Diameter, whole micrometres.</param>
/// <param name="Others">How many there are of each size, and what other jobs have promised.</param>
/// <param name="Own">What the job itself has promised.</param>
/// <param name="Moved">By how many the job has changed the count of each size, all its entries together; those of 0 left out.</param>
public sealed record JobDrawer(
    int Diameter, DrawerCounts Others, IReadOnlyDictionary<ShimSize, PromisedCount> Own, IReadOnlyDictionary<ShimSize, int> Moved)
{
    /// <summary>What the job may use, thinnest first: everything that no other open job has promised.</summary>
    public IReadOnlyList<ShimsAtHand> Free => Others.FreeOfDiameter(Diameter);
}

/// <summary>What a job does to the drawer.</summary>
/// <param name="Entries">The entries that it writes.</param>
/// <param name="Promises">What it has promised from now on, in the place of what it had.</param>
/// <param name="Problems">Why nothing is written and nothing promised; nothing where all is well.</param>
public sealed record ShimsSettled(
    IReadOnlyList<NewEntry> Entries, IReadOnlyDictionary<ShimSize, PromisedCount> Promises, IReadOnlyList<JobProblem> Problems);
