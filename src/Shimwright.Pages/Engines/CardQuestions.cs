using Shimwright.Domain.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;

namespace Shimwright.Pages.Engines;

/// <summary>
/// The few questions that make a new card, a screen at a time. A screen is left only once its answers are right; the rules of
/// the answers are those of the card itself.
/// </summary>
internal sealed class CardQuestions
{
    /// <summary>Goes as far as the answers allow.</summary>
    /// <param name="answers">What was answered so far.</param>
    /// <param name="at">The screen that is asked for.</param>
    /// <param name="lengths">The bench's unit.</param>
    public CardQuestions(CardAnswers answers, CardScreen at, LengthStyle lengths)
    {
        Answers = answers;
        IReadOnlyList<JobProblem> all = [.. ProblemsOf(answers, lengths, out EngineCard? card, out double? diameter)];
        CardScreen? wrong = Enum.GetValues<CardScreen>().Where(s => s < at && all.Any(p => ScreenOf(p) == s)).Select(s => (CardScreen?)s).FirstOrDefault();
        Screen = wrong ?? at;
        Problems = wrong is null ? [] : [.. all.Where(p => ScreenOf(p) == wrong)];
        Card = Screen == CardScreen.Summary ? card : null;
        ShimDiameter = diameter;
    }

    public CardAnswers Answers { get; }

    /// <summary>The screen to be shown.</summary>
    public CardScreen Screen { get; }

    /// <summary>What is wrong with the answers of the screen; nothing where it has not been answered yet.</summary>
    public IReadOnlyList<JobProblem> Problems { get; }

    /// <summary>The card, on the last screen.</summary>
    public EngineCard? Card { get; }

    /// <summary>Diameter of the shims, mm, or null.</summary>
    public double? ShimDiameter { get; }

    public bool IsFirst => Screen == CardScreen.Engine;

    public CardScreen Next => Screen + 1;

    public CardScreen Before => Screen - 1;

    public static CardScreen At(string? name) => Enum.TryParse(name, ignoreCase: true, out CardScreen screen) && Enum.IsDefined(screen) ? screen : CardScreen.Engine;

    private static CardScreen ScreenOf(JobProblem problem) => CardAnswers.Keys.First(s => s.Key == CardScreen.Summary || s.Value.Contains(problem.Path)).Key;

    private static List<JobProblem> ProblemsOf(CardAnswers answers, LengthStyle lengths, out EngineCard? card, out double? diameter)
    {
        (card, diameter) = (null, null);
        List<JobProblem> first = [.. Unanswered(answers)];
        if (first.Count > 0)
        {
            return first;
        }

        var maker = new CardMaker(answers, lengths);
        ParsedCard reading = EngineCard.Read(maker.Make());
        diameter = maker.Diameter;
        card = maker.Problems.Count == 0 ? reading.Card : null;
        string[] known = [.. maker.Problems.Select(p => p.Path)];
        return [.. maker.Problems, .. reading.Problems.Select(p => p with { Path = QuestionOf(p.Path, answers) }).Distinct().Where(p => !known.Any(k => Covers(k, p.Path)))];
    }

    /// <summary>Choices that are missing; where nothing else can be said before they are there.</summary>
    private static IEnumerable<JobProblem> Unanswered(CardAnswers answers)
    {
        if (answers["name"].Length == 0)
        {
            yield return new("name", "nothing was entered", "enter a name for this engine");
        }

        if (answers.Train is null)
        {
            yield return new("train", "nothing was chosen", "choose the valve train");
        }

        if (answers.Cylinders is null)
        {
            yield return new("cylinders", answers["cylinders"].Length == 0 ? "nothing was entered" : $"found \"{answers["cylinders"]}\"", $"enter a whole number from 1 to {CardAnswers.MostCylinders}");
        }
        else if (answers.TwoBanks && answers.Cylinders % 2 != 0)
        {
            yield return new("banks", $"two banks with {answers.Cylinders} cylinders", "choose in line, then correct the access of each valve on the card");
        }

        if (answers.Split is not { } split)
        {
            yield return new("valves", "nothing was chosen", "choose the valves per cylinder");
        }
        else if (answers.Cylinders * (split.Intake + split.Exhaust) > Engine.MostValves)
        {
            yield return new("valves", $"found {answers.Cylinders * (split.Intake + split.Exhaust)} valves in all", $"a card has at most {Engine.MostValves}");
        }
    }

    /// <summary>The question behind a path of the card.</summary>
    private static string QuestionOf(string path, CardAnswers answers)
    {
        if (path.StartsWith("$.valves[", StringComparison.Ordinal))
        {
            int v = int.Parse(path[9..path.IndexOf(']', StringComparison.Ordinal)], System.Globalization.CultureInfo.InvariantCulture);
            bool isUpper = path.EndsWith("[1]", StringComparison.Ordinal);
            return (v < answers.Split!.Value.Intake * answers.Cylinders!.Value ? "intake" : "exhaust") + (isUpper ? "High" : "Low");
        }

        return path switch
        {
            _ when path.StartsWith("$.layout.firingOrder", StringComparison.Ordinal) => "order",
            _ when path.StartsWith("$.layout.firingAngles", StringComparison.Ordinal) => "angles",
            _ when path.StartsWith("$.layout.intake", StringComparison.Ordinal) => "intakeOpens",
            _ when path.StartsWith("$.layout.exhaust", StringComparison.Ordinal) => "exhaustOpens",
            _ when path.StartsWith("$.wear", StringComparison.Ordinal) => "interval",
            _ => path.Replace("$.", "", StringComparison.Ordinal),
        };
    }

    /// <summary>Whether what is known already under one question says what is found under another: limits go in pairs.</summary>
    private static bool Covers(string known, string found) =>
        known == found
        || (found.EndsWith("Low", StringComparison.Ordinal) && known == found[..^3] + "High")
        || (found.EndsWith("High", StringComparison.Ordinal) && known == found[..^4] + "Low");
}
