using System.Globalization;

namespace Shimwright.Pages.Engines;

/// <summary>What was answered to the questions for a new card, as it was typed. It travels in the address, so that back and forth work in every browser.</summary>
public sealed class CardAnswers
{
    public const int MostCylinders = 24;

    private const int Longest = 400;

    private readonly Dictionary<string, string> _typed;

    private CardAnswers(Dictionary<string, string> typed) => _typed = typed;

    /// <summary>The questions of each screen.</summary>
    public static IReadOnlyDictionary<CardScreen, IReadOnlyList<string>> Keys { get; } = new Dictionary<CardScreen, IReadOnlyList<string>>
    {
        [CardScreen.Engine] = ["name", "train", "cylinders", "banks", "valves"],
        [CardScreen.Access] = ["access", "leverRatio", "feltAt", "screwAt", "pitch"],
        [CardScreen.Limits] = ["intakeLow", "intakeHigh", "exhaustLow", "exhaustHigh", "from", "diameter", "limitsUnit"],
        [CardScreen.Crank] = ["usual", "order", "angles", "intakeOpens", "intakeCloses", "exhaustOpens", "exhaustCloses", "clock", "interval"],
        [CardScreen.Summary] = [],
    };

    public string this[string key] => _typed.GetValueOrDefault(key, "");

    public ValveTrainWords? Train => ValveTrainWords.Named(this["train"]);

    public int? Cylinders => int.TryParse(this["cylinders"], NumberStyles.None, CultureInfo.InvariantCulture, out int n) && n is >= 1 and <= MostCylinders ? n : null;

    public bool TwoBanks => this["banks"] is "halves" or "odd";

    /// <summary>Intake and exhaust valves of a cylinder, or null.</summary>
    public (int Intake, int Exhaust)? Split => this["valves"] switch
    {
        "1+1" => (1, 1),
        "2+1" => (2, 1),
        "1+2" => (1, 2),
        "2+2" => (2, 2),
        "3+2" => (3, 2),
        _ => null,
    };

    /// <summary>Whether the engine is adjusted by shims or buckets, which have a diameter and lie in the drawer.</summary>
    public bool HasShims => Train is { Adjuster: not Domain.Engines.Adjuster.Screw };

    /// <summary>Whether each side has its own camshaft or cover.</summary>
    public bool BySide => this["access"] == "side";

    /// <summary>The usual firing order, where there is one.</summary>
    public IReadOnlyList<int>? UsualOrder => Cylinders is { } n ? FiringOrders.Usual(n, TwoBanks) : null;

    /// <summary>The firing order that was confirmed or typed; null where it was left out or is none.</summary>
    public IReadOnlyList<int>? Order =>
        Cylinders == 1 ? [1]
        : this["order"].Length > 0 ? FiringOrders.Read(this["order"])
        : this["usual"].Length > 0 ? UsualOrder
        : null;

    public static CardAnswers From(Func<string, string?> typed) =>
        new(Keys.Values.SelectMany(k => k)
            .Select(k => (Key: k, Value: typed(k)?.Trim() ?? ""))
            .Where(a => a.Value.Length > 0)
            .ToDictionary(a => a.Key, a => a.Value.Length <= Longest ? a.Value : a.Value[..Longest], StringComparer.Ordinal));

    /// <summary>The bank of a cylinder: 1 is that of cylinder 1.</summary>
    public int BankOf(int cylinder) => this["banks"] switch
    {
        "halves" => cylinder <= Cylinders / 2 ? 1 : 2,
        "odd" => cylinder % 2 == 1 ? 1 : 2,
        _ => 1,
    };

    /// <summary>The answers of all screens but one, for its hidden fields.</summary>
    public IEnumerable<KeyValuePair<string, string>> Without(CardScreen screen) => _typed.Where(a => !Keys[screen].Contains(a.Key));

    /// <summary>The address of a screen with all answers.</summary>
    public string AddressOf(CardScreen screen) =>
        "/engines/new?at=" + Name(screen) + string.Concat(_typed.Select(a => $"&{a.Key}={Uri.EscapeDataString(a.Value)}"));

    public static string Name(CardScreen screen) => screen.ToString().ToLowerInvariant();
}

/// <summary>The screens of a new card, in order.</summary>
public enum CardScreen
{
    Engine,
    Access,
    Limits,
    Crank,
    Summary,
}
