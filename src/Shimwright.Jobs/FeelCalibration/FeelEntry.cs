using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Domain.Readings;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Written;

namespace Shimwright.Jobs.FeelCalibration;

/// <summary>A blade tried in a gap of known size, as it is written down.</summary>
/// <param name="Gap">The gap, mm, above 0 up to 3.</param>
/// <param name="Blade">The blade or the whole stack, mm, above 0, within 0.5 of the gap.</param>
/// <param name="Leaves">Leaves in the stack, 1 or more.</param>
/// <param name="Feel">no, firm, light or loose.</param>
public sealed record TrialMade(double Gap, double Blade, int Leaves, string Feel)
{
    /// <summary>Writes a trial down.</summary>
    /// <param name="trial">The trial.</param>
    /// <returns>The same, in words and numbers.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="trial"/> is null.</exception>
    public static TrialMade Of(FeelTrial trial)
    {
        ArgumentNullException.ThrowIfNull(trial);
        return new(trial.Gap, trial.Trial.Blade, trial.Trial.Leaves, Words.Of(trial.Trial.Feel));
    }

    /// <summary>The trial; it must have no problems.</summary>
    /// <returns>The trial.</returns>
    public FeelTrial ToTrial() => new(Gap, new BladeTrial(Blade, Enum.GetValues<Feel>().First(f => Words.Of(f) == Feel), Leaves));

    /// <summary>Says what is wrong with the trial.</summary>
    /// <returns>All problems, under the names of its members.</returns>
    public IReadOnlyList<JobProblem> Problems()
    {
        List<JobProblem> problems = [];
        NumberRule gap = TrialFile.Gap, blade = TrialFile.Blade;
        AddNumber("gap", Gap, gap);
        AddNumber("blade", Blade, blade);
        if (Leaves is < 1 or > BladeTrial.MostLeaves)
        {
            problems.Add(new("leaves", $"found {NumberRule.Text(Leaves)}", $"allowed is 1 to {NumberRule.Text(BladeTrial.MostLeaves)}"));
        }

        if (!Enum.GetValues<Feel>().Any(f => Words.Of(f) == Feel))
        {
            problems.Add(new("feel", $"found \"{JsonText.Shortened(Feel)}\"", "tap one of the four: won't enter, firm, light, loose"));
        }

        if (gap.Allows(Gap) && blade.Allows(Blade) && Math.Abs(Gap - Blade) > FeelTrial.MostPlay)
        {
            problems.Add(new("gap", $"found {NumberRule.Text(Gap)} mm", $"allowed is within {NumberRule.Text(FeelTrial.MostPlay)} mm of the blade, {NumberRule.Text(Blade)} mm"));
        }

        return problems;

        void AddNumber(string name, double value, NumberRule rule)
        {
            if (!rule.Allows(value))
            {
                problems.Add(new(name, $"found {NumberRule.Text(value)} mm", rule.Words));
            }
        }
    }
}

/// <summary>One thing that was written into a person's book of trials. Entries are appended and never altered.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "entry")]
[JsonDerivedType(typeof(FeelNamed), "name")]
[JsonDerivedType(typeof(FeelTried), "tried")]
[JsonDerivedType(typeof(FeelTakenBack), "back")]
[JsonDerivedType(typeof(FeelUsed), "used")]
public abstract record FeelEntry
{
    /// <summary>The entry as JSON in one line.</summary>
    /// <returns>JSON.</returns>
    public string ToJson() => JsonSerializer.Serialize(this, FeelEntryContext.Default.FeelEntry);

    /// <summary>Reads an entry that was written here.</summary>
    /// <param name="json">JSON.</param>
    /// <returns>The entry.</returns>
    /// <exception cref="JsonException">It is no entry that was written here.</exception>
    public static FeelEntry Read(string json) =>
        JsonSerializer.Deserialize(json, FeelEntryContext.Default.FeelEntry) ?? throw new JsonException("An entry cannot be null.");
}

/// <summary>Whose book it is; a later one corrects the name.</summary>
/// <param name="Name">The person's name.</param>
public sealed record FeelNamed(string Name) : FeelEntry;

/// <summary>Trials that were made: one by a tap, or those of a file.</summary>
/// <param name="Trials">The trials, in their order.</param>
public sealed record FeelTried(IReadOnlyList<TrialMade> Trials) : FeelEntry;

/// <summary>An entry of trials is taken back; one that took back is taken back itself, and its trials count again.</summary>
/// <param name="Number">The entry's number in the book.</param>
public sealed record FeelTakenBack(int Number) : FeelEntry;

/// <summary>The fit was taken for the bench's feel.</summary>
/// <param name="Feel">The feel as it was saved.</param>
public sealed record FeelUsed(FeelSettings Feel) : FeelEntry;

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true,
    AllowOutOfOrderMetadataProperties = true)]
[JsonSerializable(typeof(FeelEntry))]
internal sealed partial class FeelEntryContext : JsonSerializerContext;
