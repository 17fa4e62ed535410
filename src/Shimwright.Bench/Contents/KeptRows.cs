using System.Text.Json.Serialization;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Fitting;

namespace Shimwright.Bench.Contents;

/// <summary>An engine card; engines of one card share what is known of them.</summary>
/// <param name="Id">The card.</param>
/// <param name="Title">Its title.</param>
/// <param name="Card">The member "engine" of a job file, JSON.</param>
/// <param name="Details">What a job file has no place for, JSON.</param>
/// <param name="Version">Counts the changes.</param>
/// <param name="ChangedAt">When it was changed last, UTC.</param>
public sealed record KeptCard(Guid Id, string Title, [property: JsonConverter(typeof(VerbatimJson))] string Card, [property: JsonConverter(typeof(VerbatimJson))] string Details, int Version, DateTime ChangedAt);

/// <summary>An engine of the shop.</summary>
/// <param name="Id">The engine.</param>
/// <param name="CardId">Its card.</param>
/// <param name="Name">Its name.</param>
/// <param name="Notes">Notes on it.</param>
/// <param name="PerWeek">What a person has said of its use, hours or km a week, or null.</param>
/// <param name="Changes">Counts what its forecast rests on.</param>
/// <param name="Version">Counts the changes of the engine.</param>
/// <param name="AddedAt">When it was added, UTC.</param>
/// <param name="RetiredAt">When it was retired, UTC, or null.</param>
public sealed record KeptEngine(
    Guid Id, Guid CardId, string Name, string Notes, double? PerWeek, int Changes, int Version, DateTime AddedAt, DateTime? RetiredAt = null)
{
    /// <summary>Whose it is; blank in archives from before it was kept.</summary>
    public string Owner { get; init; } = "";

    /// <summary>Number of its frame or plate; blank in archives from before it was kept.</summary>
    public string Frame { get; init; } = "";
}

/// <summary>A job: what it started from, and where its facts have brought it.</summary>
/// <param name="Id">The job.</param>
/// <param name="EngineId">Its engine.</param>
/// <param name="Setup">What it started from, JSON.</param>
/// <param name="Action">The action that started it.</param>
/// <param name="Past">Where the past in its setup comes from.</param>
/// <param name="Stage">Where it stands.</param>
/// <param name="Clock">The engine's clock at the check.</param>
/// <param name="StartedAt">When it was started, UTC.</param>
/// <param name="ChangedAt">When it was last added to, UTC.</param>
/// <param name="ClosedAt">When it was closed, UTC, or null.</param>
/// <param name="Record">The record as it stood when it was closed, JSON, or null.</param>
/// <param name="DiscardedAt">When it was discarded, UTC, or null.</param>
public sealed record KeptJob(
    Guid Id, Guid EngineId, [property: JsonConverter(typeof(VerbatimJson))] string Setup, Guid Action, JobPast Past, JobStage Stage, double Clock,
    DateTime StartedAt, DateTime ChangedAt, DateTime? ClosedAt, [property: JsonConverter(typeof(VerbatimJson))] string? Record,
    DateTime? DiscardedAt = null)
{
    /// <summary>Its number, counted by the bench from 1; 0 in archives from before jobs were counted.</summary>
    public int Number { get; init; }
}

/// <summary>A fact of a job.</summary>
/// <param name="Job">The job.</param>
/// <param name="Number">Its place on the sheet, from 1.</param>
/// <param name="Action">The action that added it.</param>
/// <param name="Device">The device.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Fact">The fact, JSON.</param>
public sealed record KeptFact(Guid Job, int Number, Guid Action, string Device, DateTime At, [property: JsonConverter(typeof(VerbatimJson))] string Fact);

/// <summary>All that an open job has promised of the drawer.</summary>
/// <param name="Job">The job.</param>
/// <param name="Promised">The sizes; none where it has promised nothing any more.</param>
public sealed record KeptPromises(Guid Job, IReadOnlyDictionary<ShimSize, PromisedCount> Promised);

/// <summary>A state of the settings.</summary>
/// <param name="Version">Its number, from 1.</param>
/// <param name="Device">The device that saved it.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Settings">The settings, JSON.</param>
public sealed record KeptSettings(int Version, string Device, DateTime At, [property: JsonConverter(typeof(VerbatimJson))] string Settings);

/// <summary>An entry of a person's book of trials.</summary>
/// <param name="Person">The person.</param>
/// <param name="Number">Its number in the book, from 1.</param>
/// <param name="Action">The action that wrote it.</param>
/// <param name="Device">The device.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Entry">The entry, JSON.</param>
public sealed record KeptFeel(Guid Person, int Number, Guid Action, string Device, DateTime At, [property: JsonConverter(typeof(VerbatimJson))] string Entry);

/// <summary>How far the bench has counted: what is removed leaves its number behind.</summary>
/// <param name="Name">What is counted; jobs.</param>
/// <param name="Last">The last number that was given.</param>
public sealed record KeptCount(string Name, int Last)
{
    /// <summary>Jobs are counted.</summary>
    public const string Jobs = "jobs";
}

/// <summary>A picture.</summary>
/// <param name="Id">The picture.</param>
/// <param name="Job">The job that it is of, or null for the workshop's.</param>
/// <param name="At">When it was added, UTC.</param>
/// <param name="ContentType">image/jpeg or image/png.</param>
/// <param name="Width">Width, pixels.</param>
/// <param name="Height">Height, pixels.</param>
/// <param name="Content">The file, Base64.</param>
/// <param name="Thumb">The same picture small, Base64.</param>
public sealed record KeptPicture(Guid Id, Guid? Job, DateTime At, string ContentType, int Width, int Height, byte[] Content, byte[] Thumb);
