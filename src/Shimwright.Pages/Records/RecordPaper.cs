using System.Globalization;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Due;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Records;

/// <summary>What a record is written from.</summary>
/// <param name="Job">The job, closed.</param>
/// <param name="Record">Its record.</param>
/// <param name="Papers">Owner and frame number of its engine.</param>
/// <param name="Workshop">The workshop.</param>
/// <param name="Logo">Its logo, or null.</param>
/// <param name="Earlier">The jobs whose next round this is, the first first.</param>
/// <param name="Forecast">When the engine is due; null where this is not its last record.</param>
/// <param name="Photos">The photos that belong in the record.</param>
/// <param name="Lengths">The bench's unit.</param>
/// <param name="Local">The bench's days.</param>
internal sealed record RecordSource(
    StoredJob Job, JobRecord Record, EnginePapers Papers, WorkshopSettings Workshop, RecordPicture? Logo, IReadOnlyList<StoredJob> Earlier,
    KeptForecast? Forecast, IReadOnlyList<RecordPhoto> Photos, LengthStyle Lengths, LocalTimes Local);

/// <summary>A record as it is read: its parts in order, whatever it is shown on.</summary>
/// <param name="Name">What it is called in a list or at the foot of a sheet.</param>
/// <param name="Parts">Its parts.</param>
public sealed record RecordPaper(string Name, IReadOnlyList<RecordPart> Parts)
{
    /// <summary>Writes a record.</summary>
    internal static RecordPaper Of(RecordSource source)
    {
        JobRecord record = source.Record;
        List<RecordPart> parts = [];
        if (source.Workshop.Name.Length > 0 || source.Workshop.Lines().Count > 0 || source.Logo is not null)
        {
            parts.Add(new RecordHead(source.Workshop.Name, source.Workshop.Lines(), source.Logo));
        }

        parts.Add(new RecordTitle($"Valve clearances: {record.Engine}"));
        parts.Add(new RecordSummary(RecordWords.Summary(record)));
        parts.Add(new RecordFacts([.. FactsOf(source).Where(f => f.Words.Length > 0)]));
        parts.Add(TableOf(source, record));
        Say("What was found", record.Found);
        Say("Notes", record.Notes);
        if (record.Cautions.Count > 0)
        {
            parts.Add(new RecordHeading("Cautions"));
            parts.Add(new RecordList(record.Cautions));
        }

        foreach ((int round, StoredJob job) in source.Earlier.Index())
        {
            AddEarlier(parts, source, job, round + 1);
        }

        if (source.Photos.Count > 0)
        {
            parts.Add(new RecordHeading("Photos"));
            parts.Add(new RecordPhotos(source.Photos));
        }

        parts.Add(new RecordSignatures(["Date, mechanic", "Date, owner"]));
        return new($"Job {source.Job.Number}, {record.Engine}", parts);

        void Say(string heading, string text)
        {
            if (text.Length > 0)
            {
                parts.Add(new RecordHeading(heading));
                parts.Add(new RecordText(text.ReplaceLineEndings("\n")));
            }
        }
    }

    private static IEnumerable<(string Name, string Words)> FactsOf(RecordSource source)
    {
        JobRecord record = source.Record;
        yield return ("Job number", source.Job.Number);
        yield return ("Owner", source.Papers.Owner);
        yield return ("Frame or plate number", source.Papers.Frame);
        yield return ("Mechanic", record.By);
        yield return ("Worked on by", string.Join(", ", source.Job.Sheet.Entries.Select(e => DeviceSignature.PersonOf(e.Device)).OfType<string>().Distinct()));
        yield return ("Checked", string.Create(CultureInfo.InvariantCulture,
            $"{source.Local.Day(source.Job.Summary.StartedAt)} at {RecordWords.Clock(record.CheckClock, record.ClockUnit)}, engine at {record.TemperatureC:0.#} °C"));
        yield return ("Closed", source.Job.Summary.ClosedAt is { } closed ? $"{source.Local.Day(closed)} at {RecordWords.Clock(record.ClosedClock, record.ClockUnit)}" : "");
        yield return ("Suspected cause", record.Suspected ?? "");
        yield return ("Opened", string.Join(", ", record.Opened));
        yield return ("Next check", source.Forecast is { } forecast ? RecordWords.NextCheck(forecast, record.ClockUnit, source.Local) : "");
    }

    private static RecordTable TableOf(RecordSource source, JobRecord record)
    {
        bool hasShims = source.Job.Sheet.Engine.Valvetrain.HasShims;
        LengthStyle lengths = source.Lengths;
        return new(
            $"Gaps and {(hasShims ? "shims" : "screws")} in {lengths.UnitName}, ± for a 95 % range",
            ["Valve", "Limits", "Found", hasShims ? "Shim" : "Screw", "Now", "Chance", "Verdict"],
            [
                .. record.Valves.Select(row => new RecordLine(
                    [
                        (row.Valve, $"cyl. {row.Cylinder} {row.Side}"),
                        ($"{lengths.Clearance(row.Band[0])}-{lengths.Clearance(row.Band[1])}", ""),
                        (RecordWords.Length(row.Before, lengths), RecordWords.Gap(row.Before, row.Band)),
                        (RecordWords.Done(row, lengths), ""),
                        (RecordWords.Length(row.After, lengths), ""),
                        (row.After is { } after ? Chances.Fine(after.InBand) : "", ""),
                        (RecordWords.Verdict(row), ""),
                    ],
                    !row.Passes)),
            ]);
    }

    /// <summary>A round before this one: what was found and fitted then. What it came to is said by this record.</summary>
    private static void AddEarlier(List<RecordPart> parts, RecordSource source, StoredJob job, int round)
    {
        if (job.Record is not { } record)
        {
            return;
        }

        LengthStyle lengths = source.Lengths;
        string[] bad = [.. record.Valves.Where(v => !v.Passes).Select(v => v.Valve)];
        parts.Add(new RecordHeading($"Round {round.ToString(CultureInfo.InvariantCulture)}, {source.Local.Day(job.Summary.ClosedAt ?? job.Summary.StartedAt)}, job {job.Number}"));
        parts.Add(new RecordText($"{RecordWords.Work(record)}.{(bad.Length > 0 ? $" {string.Join(", ", bad)} did not pass then." : "")}"));
        RecordRow[] told = [.. record.Valves.Where(v => v.Change is not null || !v.Passes)];
        if (told.Length > 0)
        {
            parts.Add(new RecordTable(
                $"Round {round.ToString(CultureInfo.InvariantCulture)}, in {lengths.UnitName}",
                ["Valve", "Found", job.Sheet.Engine.Valvetrain.HasShims ? "Shim" : "Screw", "Felt then"],
                [
                    .. told.Select(row => new RecordLine(
                    [
                        (row.Valve, ""),
                        (RecordWords.Length(row.Before, lengths), RecordWords.Gap(row.Before, row.Band)),
                        (RecordWords.Done(row, lengths), ""),
                        (row.ReadAgain ? RecordWords.Length(row.After, lengths) : "not felt again", ""),
                    ])),
                ]));
        }

        if (record.Found.Length > 0)
        {
            parts.Add(new RecordText(record.Found.ReplaceLineEndings("\n")));
        }
    }
}
