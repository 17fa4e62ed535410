using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>The questions for a new card as they are labelled.</summary>
internal static class QuestionWords
{
    /// <summary>What is asked with a card's field in mind but in other words, or for no single field.</summary>
    private static readonly Dictionary<string, string> Labels = new(StringComparer.Ordinal)
    {
        ["cylinders"] = "Number of cylinders",
        ["banks"] = "Cylinder layout",
        ["valves"] = "Valves per cylinder",
        ["access"] = "Remove for access",
        ["intakeLow"] = "Intake, lower limit",
        ["intakeHigh"] = "Intake, upper limit",
        ["exhaustLow"] = "Exhaust, lower limit",
        ["exhaustHigh"] = "Exhaust, upper limit",
        ["angles"] = "Firing angles, if uneven",
        ["diameter"] = "Shim diameter, optional",
        ["clock"] = "Hour meter or odometer",
    };

    /// <summary>The card's fields that have another name among the questions.</summary>
    private static readonly Dictionary<string, string> Fields = new(StringComparer.Ordinal)
    {
        ["train"] = nameof(CardForm.Valvetrain),
        ["from"] = nameof(CardForm.LimitsFrom),
    };

    /// <summary>The arrangements that are asked for.</summary>
    public static IReadOnlyList<(string, string, string?)> Banks { get; } =
    [
        ("line", "In line or single", null),
        ("halves", "V or boxer, numbered bank by bank", "Six cylinders: 1-3 on one bank, 4-6 on the other."),
        ("odd", "V or boxer, numbered across", "Six cylinders: 1, 3, 5 on one bank, 2, 4, 6 on the other."),
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

    /// <summary>A question as it is labelled: in its own words, or as the card's field is.</summary>
    public static string Label(string question) =>
        Labels.GetValueOrDefault(question)
        ?? CardForm.All.FirstOrDefault(f => f.Name.Equals(Fields.GetValueOrDefault(question, question), StringComparison.OrdinalIgnoreCase))?.Label
        ?? question;

    /// <summary>Problems under the labels of their questions.</summary>
    public static IReadOnlyList<JobProblem> Labelled(IEnumerable<JobProblem> problems) => [.. problems.Select(p => p with { Path = Label(p.Path) })];

    /// <summary>What has to come off to reach the adjusters, for a valve train.</summary>
    public static IReadOnlyList<(string, string, string?)> Access(ValveTrainWords train, bool twoBanks)
    {
        string bank = twoBanks ? " on each bank" : "";
        IReadOnlyList<(string, string, string?)> aside = train.HasLever ? [("none", "Nothing, the levers slide aside", null)] : [];
        return train.LiftsCamshafts
            ? [("side", $"Intake and exhaust camshaft{bank}", null), ("one", twoBanks ? "One camshaft on each bank" : "One camshaft", null), .. aside]
            : [("one", twoBanks ? "One cover on each bank" : "One cover", null), ("side", $"Intake and exhaust cover{bank}", null), .. aside];
    }
}
