using Shimwright.Bench;
using Shimwright.Pages.Shell;
using Shimwright.Pocket.Keeping;

namespace Shimwright.Pocket.Here;

/// <summary>What a phone adds to the bench's pages, and what it has to say.</summary>
internal static class PocketHost
{
    /// <summary>After how long, and from how many jobs on, a phone asks for a copy.</summary>
    private const int CopyAfterDays = 14, CopyFromJobs = 5;

    public static HostPages Pages(PocketState state, PocketSteps steps, TimeProvider time) => new([typeof(PocketHost).Assembly], [("/settings/pocket", "This phone", false)])
    {
        HasCalendar = false,
        HasCommands = false,
        // Addresses of the bench stand behind the hash.
        Reach = _ => new($"{state.Home}#", ReachKind.ThisDevice),
        Notice = bench => NoticeAsync(bench, state, steps, time),
        JobNotices = job => [.. StepWords.OfJob(job, steps.Follower)],
    };

    /// <summary>A phone that falls into the oil takes the bench with it.</summary>
    private static async Task<HostNotice?> NoticeAsync(IBench bench, PocketState state, PocketSteps steps, TimeProvider time)
    {
        if (steps.Follower.Left.Count > 0)
        {
            return new($"The bench has not accepted {StepWords.Count(steps.Follower.Left.Count, "entry", "entries")} from this phone.", StepWords.LeftAddress, "Look");
        }

        if (steps.Follower.Followed is not null)
        {
            // What is here is on the bench too, or on its way there.
            return null;
        }

        if (await bench.Engines.CountAsync(null) == 0 && state.CopiedAt is null)
        {
            // The browser keeps a bench for one address. A workshop's machine may have got another.
            return new("If this phone had a bench at another address, save a copy there first.", "/settings/copies", "Import a copy");
        }

        bool isOld = state.CopiedAt is not { } at || time.GetUtcNow().UtcDateTime - at > TimeSpan.FromDays(CopyAfterDays);
        // Asked on every visit to the first page: not of the whole contents, which have every photo in them.
        return isOld && await bench.Jobs.CountOpenAsync() + (await bench.Jobs.ClosedAsync(0, CopyFromJobs + 1)).Count > CopyFromJobs
            ? new(state.CopiedAt is null ? "This bench is on this phone only." : $"The last copy is more than {CopyAfterDays} days old.", "/settings/copies", "Save a copy")
            : null;
    }
}
