namespace Shimwright.Cli.Commands;

/// <summary>The jobs of the demo workshop, an invented flood relief crew on an invented island, and what each shows.</summary>
internal static class DemoTour
{
    public static IReadOnlyList<(string File, string LookAt)> Stops { get; } =
    [
        ("01-flood-pump.json", "no blade entered at I1 and E2. The estimate says how wide the doubt is, the plan goes down further than two sizes, and the chance that all pass is stated instead of hoped for."),
        ("02-worn-four.json", "sixteen valves, and shims that move from one valve to another instead of being bought."),
        ("03-leave-alone.json", "an engine that is in its bands: the plan lifts nothing."),
        ("04-shim-over-bucket-twin.json", "one cover gives access to all four valves, so once it is off a doubtful valve is worth changing too."),
        ("05-finger-follower-single.json", "a finger with a lever ratio of 1.5: a shim 0.05 mm thinner opens the gap at the cam by 0.033 mm."),
        ("06-plant-engine-screws.json", "screws: turns and sixths of a turn instead of shims, and a gap that is known after setting whatever it was before."),
        ("07-stranded-valve.json", "a valve that wants a thinner shim than there is: it is named, with what it would want, and the rest is still planned."),
        ("08-in-thou.json", "a job written in thousandths of an inch; with --unit thou the plan is too."),
        ("09-third-check.json", "an engine with a past: 'shimwright forecast' says when to look at it again. Everything is in band today; the chances here are those of still being there in 50 hours."),
        ("10-by-depth.json", "the first job with its camshafts lifted: depths say what no blade could, and the plan is far surer of I1 and E2. 'shimwright estimate' shows what the doubt of each depth is made of."),
    ];
}
