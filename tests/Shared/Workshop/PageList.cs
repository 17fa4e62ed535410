using Shimwright.Jobs.Fitting;

namespace Shimwright.Testing.Workshop;

/// <summary>A page to look at.</summary>
/// <param name="Name">Its name in files.</param>
/// <param name="Route">The route as the program declares it.</param>
/// <param name="Address">Where it lies on a prepared bench.</param>
/// <param name="IsOfTheStore">Whether it shows where the bench is kept, and so differs from one kind of bench to another.</param>
internal sealed record PageToSee(string Name, string Route, Func<FullWorkshop, string> Address, bool IsOfTheStore = false);

/// <summary>Every page of the program, each in the states in which it looks different.</summary>
internal static class PageList
{
    public static IReadOnlyList<PageToSee> All { get; } =
    [
        new("bench", "/", _ => "/"),
        new("engines", "/engines", _ => "/engines"),
        new("engines-found", "/engines", _ => "/engines?q=bike"),
        new("engines-retired", "/engines", _ => "/engines?show=retired"),
        new("engine-new", "/engines/new", _ => "/engines/new"),
        new("engine-new-access", "/engines/new", _ => NewEngine("access")),
        new("engine-new-limits", "/engines/new", _ => NewEngine("limits")),
        new("engine-new-crank", "/engines/new", _ => NewEngine("crank")),
        new("engine", "/engines/{Id:guid}", b => $"/engines/{b.Engine}"),
        new("engine-screws", "/engines/{Id:guid}", b => $"/engines/{b.ScrewEngine}"),
        new("engine-another", "/engines/{Id:guid}/another", b => $"/engines/{b.Engine}/another"),
        new("card", "/engines/{Id:guid}/card", b => $"/engines/{b.Engine}/card"),
        new("card-screws", "/engines/{Id:guid}/card", b => $"/engines/{b.ScrewEngine}/card"),
        new("engine-set-aside", "/engines/{Id:guid}", b => $"/engines/{b.Spare}"),
        new("engine-sold", "/engines/{Id:guid}", b => $"/engines/{b.Sold}"),
        new("engine-retire", "/engines/{Id:guid}/retire", b => $"/engines/{b.Spare}/retire"),
        new("engine-retired", "/engines/{Id:guid}/retire", b => $"/engines/{b.Sold}/retire"),
        new("discard", "/jobs/{Id:guid}/discard", b => $"/jobs/{b.Mistake}/discard"),
        new("discarded", "/jobs/{Id:guid}/discard", b => $"/jobs/{b.Discarded}/discard"),
        new("engine-remove", "/engines/{Id:guid}/remove", b => $"/engines/{b.ScrewEngine}/remove"),
        new("wear", "/engines/{Id:guid}/wear", b => $"/engines/{b.Engine}/wear"),
        new("wear-empty", "/engines/{Id:guid}/wear", b => $"/engines/{b.ScrewEngine}/wear"),
        new("due", "/due", _ => "/due"),
        new("due-none", "/due", _ => "/due?q=nothing%20of%20that%20name"),
        new("scorecard", "/due/scorecard", _ => "/due/scorecard"),
        new("year", "/year", _ => "/year"),
        new("drawer", "/drawer", _ => "/drawer"),
        new("drawer-shim", "/drawer/shim", _ => "/drawer/shim?diameter=9480&thickness=2400&by=marked"),
        new("drawer-take-in", "/drawer/take-in", _ => "/drawer/take-in"),
        new("drawer-labels", "/drawer/labels", _ => "/drawer/labels"),
        new("drawer-labels-tape", "/drawer/labels", _ => "/drawer/labels?layout=tape-12&frame=1&what=all"),
        new("drawer-labels-none", "/drawer/labels", _ => "/drawer/labels?what=picked"),
        new("engine-labels", "/engines/labels", _ => "/engines/labels?layout=a4-2x7&begin=14"),
        new("engine-sticker", "/engines/labels", b => $"/engines/labels?pick={b.Engine}"),
        new("orders", "/drawer/orders", _ => "/drawer/orders"),
        new("orders-none", "/drawer/orders", _ => "/drawer/orders?days=1"),
        new("kits", "/drawer/kits", _ => "/drawer/kits"),
        new("marks", "/drawer/marks", _ => "/drawer/marks"),
        new("settings", "/settings", _ => "/settings"),
        new("workshop", "/settings/workshop", _ => "/settings/workshop"),
        new("copies", "/settings/copies", _ => "/settings/copies", IsOfTheStore: true),
        new("feel", "/feel", _ => "/feel"),
        new("feel-person", "/feel/{Id:guid}", b => $"/feel/{b.Person}"),
        new("feel-begun", "/feel/{Id:guid}", b => $"/feel/{b.Beginner}"),
        new("timing", "/timing", _ => "/timing?teeth=34&offset=1.8&radius=30&pins=15&right=16"),
        new("take-in", "/jobs/take-in", _ => "/jobs/take-in"),
        new("next", "/jobs/{Id:guid}/next", b => $"/jobs/{b.JobAt(JobStage.Plan)}/next"),
        new("next-skipped", "/jobs/{Id:guid}/next", b => $"/jobs/{b.JobAt(JobStage.Measure)}/next?skip=1"),
        new("next-accepted", "/jobs/{Id:guid}/next", b => $"/jobs/{b.JobAt(JobStage.Fit)}/next"),
        new("dry", "/jobs/{Id:guid}/dry", b => $"/jobs/{b.Dry}/dry"),
        new("dry-early", "/jobs/{Id:guid}/dry", b => $"/jobs/{b.JobAt(JobStage.Fit)}/dry"),
        new("fit-dry", "/jobs/{Id:guid}/fit", b => $"/jobs/{b.Dry}/fit"),
        new("plan-measure", "/jobs/{Id:guid}/plan", b => $"/jobs/{b.JobAt(JobStage.Plan)}/plan?measure=2.1&from=drawer"),
        new("measure", "/jobs/{Id:guid}/measure", b => Job(b, JobStage.Measure, "measure")),
        new("measure-wide", "/jobs/{Id:guid}/measure", b => $"/jobs/{b.Wide}/measure"),
        new("measure-closed", "/jobs/{Id:guid}/measure", b => Job(b, JobStage.Closed, "measure")),
        new("depth", "/jobs/{Id:guid}/depth", b => $"/jobs/{b.Lifted}/depth?valve=I1"),
        new("depth-first", "/jobs/{Id:guid}/depth", b => Job(b, JobStage.Measure, "depth")),
        new("stops", "/jobs/{Id:guid}/stops", b => $"/jobs/{b.Wide}/stops"),
        new("shims", "/jobs/{Id:guid}/shims", b => Job(b, JobStage.Shims, "shims")),
        new("plan-wanting", "/jobs/{Id:guid}/plan", b => Job(b, JobStage.Measure, "plan")),
        new("plan", "/jobs/{Id:guid}/plan", b => Job(b, JobStage.Plan, "plan")),
        new("plan-wide", "/jobs/{Id:guid}/plan", b => $"/jobs/{b.Wide}/plan"),
        new("plan-screws", "/jobs/{Id:guid}/plan", b => $"/jobs/{b.ScrewJob}/plan"),
        new("plan-accepted", "/jobs/{Id:guid}/plan", b => Job(b, JobStage.Fit, "plan")),
        new("map", "/jobs/{Id:guid}/map", b => Job(b, JobStage.Fit, "map")),
        new("map-none", "/jobs/{Id:guid}/map", b => Job(b, JobStage.Measure, "map")),
        new("fit", "/jobs/{Id:guid}/fit", b => Job(b, JobStage.Fit, "fit")),
        new("fit-done", "/jobs/{Id:guid}/fit", b => Job(b, JobStage.Recheck, "fit")),
        new("recheck", "/jobs/{Id:guid}/recheck", b => Job(b, JobStage.Recheck, "recheck")),
        new("recheck-done", "/jobs/{Id:guid}/recheck", b => Job(b, JobStage.Close, "recheck")),
        new("measure-nothing", "/jobs/{Id:guid}/measure", b => $"/jobs/{b.Fine}/measure"),
        new("close-nothing", "/jobs/{Id:guid}/close", b => $"/jobs/{b.Fine}/close"),
        new("close-early", "/jobs/{Id:guid}/close", b => Job(b, JobStage.Fit, "close")),
        new("close", "/jobs/{Id:guid}/close", b => Job(b, JobStage.Close, "close")),
        new("close-closed", "/jobs/{Id:guid}/close", b => Job(b, JobStage.Closed, "close")),
        new("record", "/jobs/{Id:guid}/record", b => Job(b, JobStage.Closed, "record")),
        new("record-early", "/jobs/{Id:guid}/record", b => Job(b, JobStage.Close, "record")),
        new("photos", "/jobs/{Id:guid}/photos", b => Job(b, JobStage.Closed, "photos")),
        new("photos-none", "/jobs/{Id:guid}/photos", b => Job(b, JobStage.Plan, "photos")),
        new("error", "/error", _ => "/error"),
        new("not-found", "/not-found", _ => "/not-found"),
    ];

    private static string NewEngine(string at) => $"/engines/new?at={at}&name=Any&train=finger-follower&cylinders=4&banks=line&valves=2%2B2&access=side&intakeLow=0.1&intakeHigh=0.2&exhaustLow=0.2&exhaustHigh=0.3";

    private static string Job(FullWorkshop bench, JobStage stage, string page) => $"/jobs/{bench.JobAt(stage)}/{page}";
}
