using System.Text.Json;
using System.Text.Json.Serialization;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Drawer;

namespace Shimwright.Bench.InStep;

/// <summary>
/// Something that was done at a bench of its own, told to the bench that the shop shares. What it refers to is named by ids and actions that
/// were made where it was done; numbers that a bench counts are never sent.
/// </summary>
/// <param name="Id">The action; the same sent twice counts once.</param>
/// <param name="At">When, by the clock of the device, UTC.</param>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "deed")]
[JsonDerivedType(typeof(EngineAdded), "engine")]
[JsonDerivedType(typeof(EngineShared), "shares")]
[JsonDerivedType(typeof(EngineSaved), "card")]
[JsonDerivedType(typeof(EngineRetired), "retired")]
[JsonDerivedType(typeof(EngineRemoved), "removed")]
[JsonDerivedType(typeof(UsageStated), "usage")]
[JsonDerivedType(typeof(JobStarted), "start")]
[JsonDerivedType(typeof(FactsAdded), "facts")]
[JsonDerivedType(typeof(ShimsPutIn), "putIn")]
[JsonDerivedType(typeof(ShimsCounted), "counted")]
[JsonDerivedType(typeof(ShimMeasured), "measured")]
[JsonDerivedType(typeof(EntryTakenBack), "takenBack")]
[JsonDerivedType(typeof(FeelWritten), "feel")]
[JsonDerivedType(typeof(SettingsSaved), "settings")]
[JsonDerivedType(typeof(PictureAdded), "picture")]
public abstract record Deed(Guid Id, DateTime At)
{
    /// <summary>The job that it belongs to, or null.</summary>
    [JsonIgnore]
    public virtual Guid? OfJob => null;

    /// <summary>What it replaces a version of, and how many changes by the same device it builds upon: where one of those is not taken, neither is it.</summary>
    [JsonIgnore]
    internal virtual IReadOnlyList<(string Replaced, int Own)> BuildsOn => [];
}

/// <summary>An engine was added with a card of its own, which has the engine's id.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Engine">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="Card">The member "engine" of a job file.</param>
/// <param name="Details">What a job file has no place for.</param>
/// <param name="Notes">Notes on it.</param>
/// <param name="Owner">Whose it is.</param>
/// <param name="Frame">Number of its frame or plate.</param>
public sealed record EngineAdded(
    Guid Id, DateTime At, Guid Engine, string Name, [property: JsonConverter(typeof(VerbatimJson))] string Card,
    [property: JsonConverter(typeof(VerbatimJson))] string Details, string Notes, string Owner, string Frame) : Deed(Id, At);

/// <summary>An engine was added that shares a card.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Engine">The engine.</param>
/// <param name="Name">Its name.</param>
/// <param name="Card">The card.</param>
public sealed record EngineShared(Guid Id, DateTime At, Guid Engine, string Name, Guid Card) : Deed(Id, At);

/// <summary>An engine and its card were saved.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Engine">The engine.</param>
/// <param name="Seen">The versions of the shared bench upon which it was saved.</param>
/// <param name="Name">The name.</param>
/// <param name="Card">The member "engine" of a job file.</param>
/// <param name="Details">What a job file has no place for.</param>
/// <param name="Notes">Notes on it.</param>
/// <param name="Owner">Whose it is; null where that stays as it is.</param>
/// <param name="Frame">Number of its frame or plate; null where that stays as it is.</param>
public sealed record EngineSaved(
    Guid Id, DateTime At, Guid Engine, SeenEngine Seen, string Name, [property: JsonConverter(typeof(VerbatimJson))] string Card,
    [property: JsonConverter(typeof(VerbatimJson))] string Details, string Notes, string? Owner, string? Frame) : Deed(Id, At)
{
    internal override IReadOnlyList<(string Replaced, int Own)> BuildsOn => [($"engine/{Engine}", Seen.Own), ($"card/{Seen.Card}", Seen.CardOwn)];
}

/// <summary>Which state of an engine and its card somebody had seen.</summary>
/// <param name="Version">The engine's version on the shared bench.</param>
/// <param name="Own">How many changes of it by the same device came upon that.</param>
/// <param name="Card">The card.</param>
/// <param name="CardVersion">The card's version on the shared bench.</param>
/// <param name="CardOwn">How many changes of the card by the same device came upon that.</param>
public readonly record struct SeenEngine(int Version, int Own, Guid Card, int CardVersion, int CardOwn);

/// <summary>An engine was retired, or put back into use.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Engine">The engine.</param>
/// <param name="IsRetired">Whether it is retired from then on.</param>
public sealed record EngineRetired(Guid Id, DateTime At, Guid Engine, bool IsRetired) : Deed(Id, At);

/// <summary>An engine was removed for good.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Engine">The engine.</param>
/// <param name="Typed">Its name, typed by the person who wanted it.</param>
public sealed record EngineRemoved(Guid Id, DateTime At, Guid Engine, string Typed) : Deed(Id, At);

/// <summary>How much an engine is used was stated.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Engine">The engine.</param>
/// <param name="Before">What was stated before.</param>
/// <param name="PerWeek">Hours or km a week, or null.</param>
public sealed record UsageStated(Guid Id, DateTime At, Guid Engine, double? Before, double? PerWeek) : Deed(Id, At);

/// <summary>A job was started; it has the action's id.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Engine">The engine.</param>
/// <param name="Setup">What it started from.</param>
/// <param name="Past">Where the past in the setup comes from.</param>
/// <param name="Facts">Facts that were known already.</param>
public sealed record JobStarted(
    Guid Id, DateTime At, Guid Engine, [property: JsonConverter(typeof(VerbatimJson))] string Setup, Jobs.JobPast Past, IReadOnlyList<JsonElement> Facts) : Deed(Id, At)
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override Guid? OfJob => Id;
}

/// <summary>Facts were added to a job. One that takes a single entry back says its place among the entries of its action, from 1.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Job">The job.</param>
/// <param name="Seen">The last entry of the shared bench that the person had seen.</param>
/// <param name="Facts">The facts.</param>
public sealed record FactsAdded(Guid Id, DateTime At, Guid Job, int Seen, IReadOnlyList<JsonElement> Facts) : Deed(Id, At)
{
    /// <summary>The facts, to be shown: of what one takes back the place is said and not the number.</summary>
    /// <returns>The facts.</returns>
    public IReadOnlyList<Shimwright.Jobs.Facts.JobFact> Read() => DeedFacts.Read(Facts, null);

    /// <inheritdoc/>
    [JsonIgnore]
    public override Guid? OfJob => Job;
}

/// <summary>Shims were put into the drawer.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Shims">The size and how many.</param>
public sealed record ShimsPutIn(Guid Id, DateTime At, ShimCount Shims) : Deed(Id, At);

/// <summary>Shims were counted.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Counted">The sizes and how many.</param>
/// <param name="Seen">The last entry of the shared drawer that the person had seen; null where nobody looked before.</param>
public sealed record ShimsCounted(Guid Id, DateTime At, IReadOnlyList<ShimCount> Counted, int? Seen) : Deed(Id, At);

/// <summary>A shim that was known by its mark was measured.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Marked">The size that its mark says.</param>
/// <param name="Thickness">What the micrometer says, mm.</param>
/// <param name="Place">Where it lies now, or null.</param>
public sealed record ShimMeasured(Guid Id, DateTime At, ShimSize Marked, double Thickness, string? Place) : Deed(Id, At);

/// <summary>An entry of the drawer was taken back.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Action">The action that wrote the entry.</param>
/// <param name="Place">Its place among the entries of its action, from 1.</param>
public sealed record EntryTakenBack(Guid Id, DateTime At, Guid Action, int Place) : Deed(Id, At);

/// <summary>An entry was written into a person's book of trials.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Person">The person.</param>
/// <param name="Entry">The entry.</param>
/// <param name="TakesBack">The action of the entry that it takes back, or null.</param>
public sealed record FeelWritten(Guid Id, DateTime At, Guid Person, [property: JsonConverter(typeof(VerbatimJson))] string Entry, Guid? TakesBack) : Deed(Id, At);

/// <summary>Settings were saved.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Seen">The version of the shared bench upon which they were saved.</param>
/// <param name="Own">How many changes by the same device came upon that.</param>
/// <param name="Settings">The settings.</param>
public sealed record SettingsSaved(Guid Id, DateTime At, int Seen, int Own, [property: JsonConverter(typeof(VerbatimJson))] string Settings) : Deed(Id, At)
{
    internal override IReadOnlyList<(string Replaced, int Own)> BuildsOn => [("settings", Own)];
}

/// <summary>A picture was added; its id is the picture's.</summary>
/// <param name="Id">The action.</param>
/// <param name="At">When.</param>
/// <param name="Picture">The picture; without its content until it is sent.</param>
public sealed record PictureAdded(Guid Id, DateTime At, KeptPicture Picture) : Deed(Id, At)
{
    /// <inheritdoc/>
    [JsonIgnore]
    public override Guid? OfJob => Picture.Job;
}
