using System.Text.Json.Serialization;

namespace Shimwright.Jobs.Facts;

/// <summary>What is said beside the work: no answer depends on it, and it may be added to a job that is closed.</summary>
public abstract record BesideFact : JobFact;

/// <summary>A note for whoever reads the job later.</summary>
/// <param name="Text">The note.</param>
public sealed record JobNoted(string Text) : BesideFact;

/// <summary>The job was given a number in the place of the one that the bench has counted.</summary>
/// <param name="Number">The number; blank for the bench's own.</param>
public sealed record JobNumbered(string Number) : BesideFact
{
    /// <summary>The longest number, characters.</summary>
    public const int Longest = 40;

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => "number";
}

/// <summary>A photo belongs to the job, with what is said of it; a newer fact of the same photo corrects an older.</summary>
/// <param name="Photo">The picture's id.</param>
/// <param name="Shows">marks, shims, found or other.</param>
/// <param name="Caption">What is to be seen, in a line.</param>
/// <param name="InRecord">Whether the record shows it.</param>
/// <param name="Removed">Whether it is put away; its picture stays, so that it can be put back.</param>
public sealed record PhotoKept(Guid Photo, string Shows, string Caption, bool InRecord, bool Removed) : BesideFact
{
    /// <summary>The longest caption, characters.</summary>
    public const int LongestCaption = 200;

    /// <summary>The most photos of a job.</summary>
    public const int Most = 40;

    /// <summary>What a photo may show.</summary>
    public static IReadOnlyList<string> Kinds { get; } = ["marks", "shims", "found", "other"];

    /// <inheritdoc/>
    [JsonIgnore]
    public override string Subject => $"photo/{Photo:N}";
}
