using Shimwright.Jobs.Due;
using Shimwright.Jobs.Tables;

namespace Shimwright.Pages.Files;

/// <summary>The columns of the year.</summary>
internal static class YearColumns
{
    public static IReadOnlyList<ListColumn<YearMonth>> All { get; } =
    [
        new("month", "its first day", m => m.First),
        new("jobs", "closed jobs, second rounds included", m => m.Jobs),
        new("nothing_to_do", "of them: no valve changed, all in band", m => m.NothingToDo),
        new("checked", "first rounds with a change, every changed valve felt again", m => m.FirstTime?.Trials ?? 0),
        new("passed_first_time", "of them: every valve passed", m => m.FirstTime?.Count),
        new("first_time_rate", "the share that passed, 0 to 1", m => m.FirstTime?.Share),
        new("first_time_low", "lower end of its 95 % interval (Clopper-Pearson)", m => m.FirstTime?.Low),
        new("first_time_high", "upper end", m => m.FirstTime?.High),
        new("planned_minutes", "mean minutes that the accepted plans counted", m => m.PlannedMinutes),
        new("shims_fitted", "shims fitted", m => m.Shims.Fitted),
        new("shims_from_drawer", "of them: from the drawer", m => m.Shims.FromDrawer),
        new("shims_bought", "of them: bought for the job", m => m.Shims.Bought),
        new("shims_moved", "of them: from another valve of the engine", m => m.Shims.Moved),
        new("shims_other", "of them: not as planned, or closed before this was kept", m => m.Shims.Other),
        new("promises", "first rounds with a plan, every changed valve felt again", m => m.Kept?.Trials ?? 0),
        new("promised_chance", "mean chance that the plans gave, 0 to 1", m => m.Promised),
        new("achieved", "share with every valve in band, 0 to 1", m => m.Kept?.Share),
        new("achieved_low", "lower end of its 95 % interval", m => m.Kept?.Low),
        new("achieved_high", "upper end", m => m.Kept?.High),
    ];
}
