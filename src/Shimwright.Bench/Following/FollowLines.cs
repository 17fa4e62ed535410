using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Bench.Contents;
using Shimwright.Bench.InStep;

namespace Shimwright.Bench.Following;

/// <summary>Which bench is followed, how far, and under what name.</summary>
/// <param name="Pocket">What this bench calls itself there.</param>
/// <param name="Mark">How far it has followed.</param>
/// <param name="Device">What the other bench writes beside what comes from here; blank before it has said.</param>
public sealed record Followed(Guid Pocket, StepMark Mark, string Device);

/// <summary>A deed that the followed bench has not taken, and why.</summary>
/// <param name="Key">Under what it is kept.</param>
/// <param name="Deed">The deed.</param>
/// <param name="Answer">Why.</param>
public sealed record LeftDeed(string Key, Deed Deed, DeedAnswer Answer);

/// <summary>The lines that a bench keeps beside its rows while it follows another one.</summary>
internal static class FollowLines
{
    /// <summary>The one line that says which bench is followed.</summary>
    public const string Step = "step";

    /// <summary>Before the key of a row: the row as the followed bench has it, where this one is ahead; an empty line where it has none.</summary>
    public const string Base = "base/";

    private const string Deeds = "deeds/", Left = "left/";

    public static KeptLine Of(Followed followed) => new(Step, JsonSerializer.Serialize(followed, FollowContext.Default.Followed));

    public static Followed ReadFollowed(string line) => JsonSerializer.Deserialize(line, FollowContext.Default.Followed) ?? throw new FormatException("What is followed cannot be read.");

    public static KeptLine OfBase(string key, string? line) => new(Base + key, line ?? "");

    public static KeptLine OfDeed(int number, Deed deed) => new(KeyOfDeed(number), StepJson.Write(deed));

    public static string KeyOfDeed(int number) => Deeds + KeptLines.Place(number);

    public static bool IsDeed(string key, out int number) => IsAt(key, Deeds, out number);

    public static KeptLine OfLeft(LeftDeed left) => new(left.Key, $"{StepJson.Write(left.Deed)}\n{StepJson.Write(left.Answer)}");

    public static string KeyOfLeft(int number) => Left + KeptLines.Place(number);

    public static bool IsLeft(string key, out int number) => IsAt(key, Left, out number);

    public static LeftDeed ReadLeft(KeptLine line)
    {
        string[] both = line.Line!.Split('\n');
        return new(line.Key, StepJson.ReadDeed(both[0]), StepJson.ReadAnswer(both[1]));
    }

    private static bool IsAt(string key, string kind, out int number)
    {
        number = 0;
        return key.StartsWith(kind, StringComparison.Ordinal) && int.TryParse(key.AsSpan(kind.Length), NumberStyles.None, CultureInfo.InvariantCulture, out number);
    }
}

[JsonSourceGenerationOptions(JsonSerializerDefaults.Web)]
[JsonSerializable(typeof(Followed))]
internal sealed partial class FollowContext : JsonSerializerContext;
