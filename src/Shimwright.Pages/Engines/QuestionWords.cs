using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>The questions for a new card as they are labelled.</summary>
internal static class QuestionWords
{
    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["name"] = "Name",
        ["train"] = "How the clearances are adjusted",
        ["cylinders"] = "Cylinders",
        ["banks"] = "How the cylinders stand",
        ["valves"] = "Valves of a cylinder",
        ["access"] = "What has to come off",
        ["ratio"] = "Ratio",
        ["pitch"] = "Pitch of the screw",
        ["intakeLow"] = "Intake, lower limit",
        ["intakeHigh"] = "Intake, upper limit",
        ["exhaustLow"] = "Exhaust, lower limit",
        ["exhaustHigh"] = "Exhaust, upper limit",
        ["from"] = "Where the limits come from",
        ["order"] = "Firing order",
        ["angles"] = "Firing angles, where they are uneven",
        ["intakeOpens"] = "Intake opens before top dead centre",
        ["intakeCloses"] = "Intake closes after bottom dead centre",
        ["exhaustOpens"] = "Exhaust opens before bottom dead centre",
        ["exhaustCloses"] = "Exhaust closes after top dead centre",
        ["interval"] = "Interval between checks",
        ["clock"] = "What the engine's clock counts",
    };

    /// <summary>The arrangements that are asked for.</summary>
    public static IReadOnlyList<(string, string, string?)> Banks { get; } =
    [
        ("line", "In line, or one cylinder", null),
        ("halves", "Two banks (V or boxer), numbered bank by bank", "Six: 1, 2, 3 on one bank and 4, 5, 6 on the other."),
        ("odd", "Two banks (V or boxer), numbered across", "Six: 1, 3, 5 on one bank and 2, 4, 6 on the other."),
    ];

    /// <summary>The valves of a cylinder that are asked for.</summary>
    public static IReadOnlyList<(string, string, string?)> Valves { get; } =
    [
        ("1+1", "2: one intake, one exhaust", null),
        ("2+1", "3: two intake, one exhaust", null),
        ("1+2", "3: one intake, two exhaust", null),
        ("2+2", "4: two intake, two exhaust", null),
        ("3+2", "5: three intake, two exhaust", null),
    ];

    public static IReadOnlyList<(string, string, string?)> Trains { get; } = [.. ValveTrainWords.All.Select(t => (t.Name, t.Title, (string?)t.Hint))];

    public static string Label(string question) => Labels.GetValueOrDefault(question, question);

    /// <summary>Problems under the labels of their questions.</summary>
    public static IReadOnlyList<JobProblem> Labelled(IEnumerable<JobProblem> problems) => [.. problems.Select(p => p with { Path = Label(p.Path) })];

    /// <summary>What has to come off to reach the adjusters, for a valve train.</summary>
    public static IReadOnlyList<(string, string, string?)> Access(ValveTrainWords train, bool twoBanks)
    {
        string bank = twoBanks ? " on each bank" : "";
        return train.LiftsCamshafts
            ? [("side", $"A camshaft for each side{bank}", "One for the intake valves, one for the exhaust valves."), ("one", twoBanks ? "One camshaft on each bank" : "One camshaft for all valves", null)]
            : [("one", twoBanks ? "A cover on each bank" : "One cover", "No camshaft is lifted."), ("side", $"A cover for each side{bank}", "One over the intake valves, one over the exhaust valves.")];
    }
}
