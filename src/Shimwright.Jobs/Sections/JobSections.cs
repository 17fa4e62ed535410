using Shimwright.Domain.Shims;
using Shimwright.Jobs.Members;

namespace Shimwright.Jobs.Sections;

/// <summary>A job file as far as it could be read, section by section.</summary>
internal sealed record JobSections(
    EngineSection? Engine, IReadOnlyList<PastSection> History, CheckSection? Check, RecheckSection? Recheck,
    Stock Stock, CostsSection Costs, SettingsSection Settings)
{
    public const string Format = "shimwright-job/1";
    private const int MostPastChecks = 1000;

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
        return ReadNow(o, engine, settings, history);
    }

    /// <summary>Reads what changes while a job is worked on, on the engine, the settings and the past that it started with.</summary>
    public static JobSections ReadNow(ObjectMembers o, EngineSection? engine, SettingsSection settings, IReadOnlyList<PastSection> history)
    {
        EngineSection known = engine ?? EngineSection.None;
        CheckSection? check = o.Object(
            "check", c => CheckSection.Read(c, known, settings.Instruments), "The check to work on.", required: true);
        RecheckSection? recheck = o.Object(
            "recheck", r => RecheckSection.Read(r, known, settings.Instruments, check?.Temperature), "What was done after the check, and what was read then.");
        Stock stock = o.Object("stock", s => StockSection.Read(s, settings.Instruments), "Drawer and shop.") ?? Stock.Nothing;
        CostsSection costs = o.Object("costs", c => CostsSection.Read(c, known), "Minutes and prices.") ?? CostsSection.Default;
        NoteFallingClocks(o, history, check);
        return new(engine, history, check, recheck, stock, costs, settings);
    }

    private static void NoteFallingClocks(ObjectMembers o, IReadOnlyList<PastSection> history, CheckSection? check)
    {
        double[] clocks = [.. history.Select(p => p.Check.Clock).Append(check?.Clock).OfType<double>()];
        for (int i = 1; i < clocks.Length; i++)
        {
            if (clocks[i] < clocks[i - 1])
            {
                o.Problem(
                    "history",
                    $"found a clock of {NumberRule.Text(clocks[i])} after one of {NumberRule.Text(clocks[i - 1])}",
                    "past checks stand oldest first, and the check comes after them");
            }
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
internal sealed record RecheckSection(double? Temperature, ChangedSection Changed, ReadingsSection Readings)
{
    public static RecheckSection Read(ObjectMembers o, EngineSection engine, InstrumentSet instruments, double? checkTemperature)
    {
        double? temperature = CheckSection.ReadTemperature(o);
        return new(
            temperature,
            ChangedSection.Read(o, engine, instruments),
            ReadingsSection.Read(o, engine, temperature ?? checkTemperature, required: false));
    }
}
