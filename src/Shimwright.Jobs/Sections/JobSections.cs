using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>A job file as far as it could be read, section by section.</summary>
internal sealed record JobSections(
    EngineSection? Engine, IReadOnlyList<PastSection> History, IReadOnlyList<PastSection> Rounds, CheckSection? Check, RecheckSection? Recheck,
    Stock Stock, CostsSection Costs, SettingsSection Settings)
{
    public const string Format = "shimwright-job/1";
    private const int MostPastChecks = 1000;
    private const int MostRounds = 20;

    private static readonly Dictionary<string, int> Formats = new(StringComparer.Ordinal) { [Format] = 1 };

    /// <summary>Reads a whole file.</summary>
    public static JobSections Read(ObjectMembers o)
    {
        o.Choice("format", Formats, "The format of this file.", required: true);
        return ReadOn(o, o.Object("engine", EngineSection.Read, "The engine card.", required: true));
    }

    /// <summary>Reads a job on an engine whose card was read already.</summary>
    public static JobSections ReadOn(ObjectMembers o, EngineSection? engine)
    {
        EngineSection known = engine ?? EngineSection.None;
        SettingsSection settings = o.Object("settings", SettingsSection.Read, "The bench's own constants.") ?? SettingsSection.Default;
        IReadOnlyList<PastSection> history = o.List(
            "history", h => PastSection.Read(h, known, settings.Instruments), (0, MostPastChecks), "Past checks, oldest first.");
        IReadOnlyList<PastSection> rounds = o.List(
            "rounds", r => PastSection.Read(r, known, settings.Instruments), (0, MostRounds), "Earlier rounds of the same work, oldest first: what was found, and what was changed after it.");
        return ReadNow(o, engine, settings, (history, rounds));
    }

    /// <summary>Reads what changes while a job is worked on, on the engine, the settings and the past that it started with.</summary>
    public static JobSections ReadNow(
        ObjectMembers o, EngineSection? engine, SettingsSection settings, (IReadOnlyList<PastSection> History, IReadOnlyList<PastSection> Rounds) before)
    {
        EngineSection known = engine ?? EngineSection.None;
        CheckSection? check = o.Object(
            "check", c => CheckSection.Read(c, known, settings.Instruments), "The check to work on.", required: true);
        RecheckSection? recheck = o.Object(
            "recheck", r => RecheckSection.Read(r, known, settings.Instruments, check?.Temperature), "What was done after the check, and what was read then.");
        Stock stock = o.Object("stock", s => StockSection.Read(s, settings.Instruments), "Drawer and shop.") ?? Stock.Nothing;
        CostsSection costs = o.Object("costs", c => CostsSection.Read(c, known), "Minutes and prices.") ?? CostsSection.Default;
        NoteFallingClocks(o, before.History, before.Rounds, check);
        return new(engine, before.History, before.Rounds, check, recheck, stock, costs, settings);
    }

    /// <summary>Whether a valve was read in an earlier round and left as it was read.</summary>
    public bool WasReadBefore(string valve) =>
        Rounds.Reverse().TakeWhile(r => !r.Changed.Named.Contains(valve)).Any(r => r.Check.Readings.Named.Contains(valve));

    private static void NoteFallingClocks(
        ObjectMembers o, IReadOnlyList<PastSection> history, IReadOnlyList<PastSection> rounds, CheckSection? check)
    {
        (string Member, double? Clock)[] clocks =
        [
            .. history.Select(p => ("history", p.Check.Clock)), .. rounds.Select(r => ("rounds", r.Check.Clock)), ("check", check?.Clock),
        ];
        (string Member, double? Clock)[] known = [.. clocks.Where(c => c.Clock is not null)];
        foreach (((string member, double? clock), (_, double? next)) in known.Zip(known.Skip(1)).Where(c => c.Second.Clock < c.First.Clock))
        {
            o.Problem(
                member,
                $"found a clock of {NumberRule.Text(next!.Value)} after one of {NumberRule.Text(clock!.Value)}",
                member == "rounds" ? "earlier rounds stand oldest first, and the check comes after them" : "past checks stand oldest first, and the check comes after them");
        }
    }
}

/// <summary>A past check and what was done after it.</summary>
internal sealed record PastSection(CheckSection Check, ChangedSection Changed)
{
    public static PastSection Read(ObjectMembers o, EngineSection engine, InstrumentSet instruments) =>
        new(CheckSection.Read(o, engine, instruments), ChangedSection.Read(o, engine, instruments));
}

/// <summary>What was done after the check, and what was read then.</summary>
internal sealed record RecheckSection(
    double? Temperature, ChangedSection Changed, ReadingsSection Readings, IReadOnlyList<DryFitSection> DryFits)
{
    private const int MostDryFits = 50;

    /// <summary>Whether camshafts lie dry, with nothing felt since they were laid down for good.</summary>
    public bool IsDry => DryFits.Count > 0 && Readings.Named.Count == 0;

    public static RecheckSection Read(ObjectMembers o, EngineSection engine, InstrumentSet instruments, double? checkTemperature)
    {
        double? temperature = CheckSection.ReadTemperature(o);
        ChangedSection changed = ChangedSection.Read(o, engine, instruments);
        return new(
            temperature,
            changed,
            ReadingsSection.Read(o, engine, temperature ?? checkTemperature, required: false),
            o.List(
                "dryFits", d => DryFitSection.Read(d, engine, instruments, temperature ?? checkTemperature, changed), (0, MostDryFits),
                "Dry fits between the check and the re-check, in their order: shims in, camshaft laid down with its caps snug, felt, lifted again."));
    }
}
