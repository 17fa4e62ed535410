using Shimwright.Bench.Drawer;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Written;

namespace Shimwright.Bench.Adding;

/// <summary>
/// What facts of a job mean for the drawer: an accepted plan promises its shims to the job, a closed job takes them out and puts
/// the old ones in, and whatever is taken back is taken back there too.
/// </summary>
public static class JobShims
{
    /// <summary>Whether facts can mean anything for the drawer.</summary>
    /// <param name="facts">The facts.</param>
    /// <returns>Whether they can.</returns>
    /// <exception cref="ArgumentNullException">There are no facts.</exception>
    public static bool Concern(IReadOnlyList<JobFact> facts) =>
        facts.Any(f => f is PlanAccepted or PlanReleased or StockStated or ChangeFact or JobClosed or JobReopened or JobDiscarded or JobPutBack or Undone);

    /// <summary>The diameter of the shims that fit an engine, whole micrometres; null where it has none or its card does not say.</summary>
    /// <param name="sheet">A job on it.</param>
    /// <param name="details">What is kept of its card now.</param>
    /// <returns>The diameter, or null.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static int? DiameterOf(JobSheet sheet, CardDetails details)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(details);
        return sheet.Engine.Valvetrain.HasShims && details.ShimDiameter is { } diameter ? ShimSize.Micrometres(diameter) : null;
    }

    /// <summary>Writes down what the drawer had where a plan is accepted from it, so that the job's figures no longer hang on it.</summary>
    /// <param name="sheet">The job, with what the drawer has for it.</param>
    /// <param name="free">That again.</param>
    /// <param name="addition">What is added to the job.</param>
    /// <returns>The addition with what is written down.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static Addition Complete(JobSheet sheet, IReadOnlyList<ShimsAtHand> free, Addition addition)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(addition);
        bool writesDown = JobTerms.UsesShop(sheet) && sheet.Plan is null && !addition.Facts.Any(f => f is StockStated);
        return addition with
        {
            Facts =
            [
                .. addition.Facts.SelectMany(f => f switch
                {
                    StockStated { FromShop: true } stated => [stated with { Drawer = free }],
                    PlanAccepted when writesDown => [JobTerms.Stock(sheet) with { Drawer = free }, f],
                    _ => new[] { f },
                }),
            ],
        };
    }

    /// <summary>Brings promises and ledger to what the job is now; refuses what would put a shim into two places.</summary>
    /// <param name="before">The job as it was.</param>
    /// <param name="after">The job with what was added.</param>
    /// <param name="startedBy">The action that started the job.</param>
    /// <param name="drawer">What the drawer has to say.</param>
    /// <returns>What the job does to the drawer.</returns>
    /// <exception cref="ArgumentNullException">An argument is missing.</exception>
    public static ShimsSettled Settle(JobSheet before, JobSheet after, Guid startedBy, JobDrawer drawer)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ArgumentNullException.ThrowIfNull(drawer);
        List<JobProblem> problems = [];
        var moves = new JobMoves(drawer);
        if (before.Closing is null != after.Closing is null)
        {
            moves.TakeBack(problems);
            // Where the job was taken in with work done, those shims came from elsewhere.
            if (after.Closing is not null && JobTerms.UsesShop(after) && !before.Entries.Any(e => e.Action == startedBy && e.Fact is ChangeFact))
            {
                moves.Exchange(DrawerUse.Exchanges(after));
            }
        }

        // After the moves: a job that is opened again promises the very shims that its opening puts back.
        Dictionary<ShimSize, PromisedCount> wanted = DrawerUse.Promised(after)
            .ToDictionary(p => new ShimSize(drawer.Diameter, ShimSize.Micrometres(p.Thickness), p.By), p => new PromisedCount(p.Count, p.Fitted));
        foreach ((ShimSize size, PromisedCount promise) in wanted)
        {
            int free = moves.FreeOf(size);
            if (promise.Count > drawer.Own.GetValueOrDefault(size).Count && promise.Count > free)
            {
                problems.Add(new("plan", $"it takes {promise.Count} of {DrawerRules.Mm(size.ThicknessMm)} ({size.By}) from the drawer, which has {free} left for this job",
                    "another job has promised what is missing, or it was taken out; let the plan go, if one is accepted, and take one that is made from what is there now"));
            }
        }

        return new(moves.Entries, wanted, problems);
    }

    /// <summary>On closing: old shims in, used ones out, as far as the drawer knew of them. On opening again: the opposite of what was done.</summary>
    private sealed class JobMoves(JobDrawer drawer)
    {
        private readonly Dictionary<ShimSize, int> _counts = new(drawer.Others.Counts);
        private readonly List<NewEntry> _entries = [];

        public IReadOnlyList<NewEntry> Entries => _entries;

        /// <summary>How many are there that no other job has promised.</summary>
        public int FreeOf(ShimSize size) => Math.Max(0, _counts.GetValueOrDefault(size) - drawer.Others.PromisedOf(size).Count);

        public void TakeBack(List<JobProblem> problems)
        {
            foreach ((ShimSize size, int change) in drawer.Moved.OrderBy(m => m.Key.Thickness).ThenBy(m => m.Key.By, StringComparer.Ordinal))
            {
                int left = _counts.GetValueOrDefault(size) - change;
                if (change > 0 && left < drawer.Others.PromisedOf(size).Count)
                {
                    problems.Add(new("drawer", $"a shim of {DrawerRules.Mm(size.ThicknessMm)} ({size.By}) that came out of this job has been used or promised since",
                        "let the plan go that has promised it; where it is in another engine, leave this job closed and start a new one"));
                }

                Write(size, -change, ShimReason.Undone);
            }
        }

        public void Exchange(IReadOnlyList<ShimExchange> exchanges)
        {
            foreach (var old in exchanges.Select(e => e.CameOut).OfType<ThicknessRow>().GroupBy(SizeOf))
            {
                Write(old.Key, old.Count(), ShimReason.CameOut);
            }

            foreach (var taken in exchanges.Select(e => e.Taken).OfType<ThicknessRow>().GroupBy(SizeOf))
            {
                Write(taken.Key, -Math.Min(taken.Count(), FreeOf(taken.Key)), ShimReason.Taken);
            }
        }

        private void Write(ShimSize size, int change, ShimReason reason)
        {
            _counts[size] = _counts.GetValueOrDefault(size) + change;
            if (change != 0)
            {
                _entries.Add(new(size, change, reason));
            }
        }

        private ShimSize SizeOf(ThicknessRow shim) => new(drawer.Diameter, ShimSize.Micrometres(shim.Thickness), shim.By);
    }
}
