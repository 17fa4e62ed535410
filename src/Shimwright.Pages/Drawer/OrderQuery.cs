using System.Globalization;
using Shimwright.Bench.Orders;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Drawer;

/// <summary>How far ahead the orders look and how sure they are to be, as the address says it.</summary>
/// <param name="Days">Days ahead.</param>
/// <param name="Level">The service level; null for the bench's.</param>
public sealed record OrderQuery(int Days, double? Level)
{
    public const int MostDays = 3650;
    public const double HighestLevel = 0.999;

    public TimeSpan Horizon => TimeSpan.FromDays(Days);

    /// <summary>Reads what was asked; what cannot be is as usual and listed with the rule.</summary>
    public static OrderQuery Read(string? days, string? level, ICollection<JobProblem> problems)
    {
        double? ahead = TypedNumber.Plain(days, "days", needed: false).Note(problems);
        if (ahead is { } asked && !(asked is >= 1 and <= MostDays && asked == Math.Floor(asked)))
        {
            problems.Add(new("days", $"found {Times.Exact(asked)}", $"enter a whole number of days from 1 to {MostDays}"));
            ahead = null;
        }

        double? sure = TypedNumber.Plain(level, "level", needed: false).Note(problems);
        if (sure is not (null or (>= 0 and <= HighestLevel)))
        {
            problems.Add(new("level", $"found {Times.Exact(sure.Value)}", string.Create(CultureInfo.InvariantCulture, $"enter a chance from 0 to {HighestLevel}, such as 0.9")));
            sure = null;
        }

        return new((int)(ahead ?? IOrders.UsualHorizon.TotalDays), sure);
    }

    /// <summary>The same question at another address.</summary>
    public string At(string address) => Level is { } level
        ? string.Create(CultureInfo.InvariantCulture, $"{address}?days={Days}&level={level:0.######}")
        : string.Create(CultureInfo.InvariantCulture, $"{address}?days={Days}");
}
