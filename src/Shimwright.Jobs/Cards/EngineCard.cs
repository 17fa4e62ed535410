using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Domain.CrankStops;
using Shimwright.Domain.Engines;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sections;

namespace Shimwright.Jobs.Cards;

/// <summary>An engine card read on its own, or everything that is wrong with it.</summary>
/// <param name="Card">The card; null where there are problems.</param>
/// <param name="Problems">All problems; the paths start at the card.</param>
public sealed record ParsedCard(EngineCard? Card, IReadOnlyList<JobProblem> Problems);

/// <summary>An engine card: the member "engine" of a job file, read without a job around it.</summary>
public sealed class EngineCard
{
    internal EngineCard(EngineSection section, string json)
    {
        Section = section;
        Json = json;
        Engine = section.ToEngine();
        List<JobProblem> missing = [];
        StopsNeeds.Note(section, missing);
        StopsProblems = [.. missing.Distinct()];
    }

    /// <summary>The ratio where the card says none.</summary>
    public static double UsualRatio => TrainSection.UsualRatio;

    /// <summary>The card as JSON in one line.</summary>
    public string Json { get; }

    /// <summary>The card as the other sections of a job refer to it.</summary>
    internal EngineSection Section { get; }

    /// <summary>The engine.</summary>
    public Engine Engine { get; }

    /// <summary>Cylinders and cam events, or null.</summary>
    public LayoutCard? Layout => Section.Layout;

    /// <summary>What wear is usual for the engine, or null.</summary>
    public WearCard? Wear => Section.Wear;

    /// <summary>The end of the head that has the chain, belt or gears; null where the card does not say.</summary>
    public HeadEnd? Front => Section.Front;

    /// <summary>The automatic decompressor, or null.</summary>
    public DecompressorCard? Decompressor => Section.Decompressor;

    /// <summary>What keeps the crank stops from being found; nothing where they can be.</summary>
    public IReadOnlyList<JobProblem> StopsProblems { get; }

    /// <summary>The crank layout; only where <see cref="StopsProblems"/> is empty.</summary>
    /// <returns>The layout.</returns>
    public CrankLayout ToLayout() => Section.ToLayout();

    /// <summary>Reads a card.</summary>
    /// <param name="json">The card as a JSON object.</param>
    /// <returns>The card, or all problems.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="json"/> is null.</exception>
    public static ParsedCard Read(JsonObject json)
    {
        ArgumentNullException.ThrowIfNull(json);
        return Read(json.ToJsonString());
    }

    /// <summary>Reads a card.</summary>
    /// <param name="json">The card as JSON text.</param>
    /// <returns>The card, or all problems.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="json"/> is null.</exception>
    public static ParsedCard Read(string json)
    {
        ArgumentNullException.ThrowIfNull(json);
        List<JobProblem> problems = [];
        EngineSection? section = JobFile.ReadObject(Encoding.UTF8.GetBytes(json), problems, EngineSection.Read);
        return section is not null && problems.Count == 0
            ? new(new EngineCard(section, JsonNode.Parse(json.TrimStart('\uFEFF'))!.ToJsonString()), [])
            : new(null, FirstProblems.OfReading(problems));
    }
}
