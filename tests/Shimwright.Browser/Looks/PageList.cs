using Shimwright.Browser.Running;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Browser.Looks;

/// <summary>A page to look at.</summary>
/// <param name="Name">Its name in files.</param>
/// <param name="Route">The route as the program declares it.</param>
/// <param name="Address">Where it lies on a prepared bench.</param>
internal sealed record PageToSee(string Name, string Route, Func<PreparedBench, string> Address);

/// <summary>Every page of the program, each in the states in which it looks different.</summary>
internal static class PageList
{
    public static IReadOnlyList<PageToSee> All { get; } =
    [
        new("bench", "/", _ => "/"),
        new("measure", "/jobs/{Id:guid}/measure", b => Job(b, JobStage.Measure, "measure")),
        new("measure-wide", "/jobs/{Id:guid}/measure", b => $"/jobs/{b.Wide}/measure"),
        new("error", "/error", _ => "/error"),
        new("not-found", "/not-found", _ => "/not-found"),
    ];

    private static string Job(PreparedBench bench, JobStage stage, string page) => $"/jobs/{bench.JobAt(stage)}/{page}";
}
