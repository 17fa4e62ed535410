using System.CommandLine;
using System.Globalization;
using Shimwright.Cli.Running;
using Shimwright.Jobs.Results;
using Shimwright.Storage;
using Shimwright.Storage.Copies;
using Shimwright.Storage.Database;

namespace Shimwright.Cli.Commands;

/// <summary>The commands that copy a bench, put one back, look it over, and carry it away.</summary>
internal static class CopyCommands
{
    private static readonly Option<bool> Json = new("--json") { Description = "Print the answer as JSON." };
    private static readonly Option<bool> Replace = new("--replace") { Description = "Replace a file of that name." };

    public static IEnumerable<Command> All(Terminal terminal) =>
    [
        OnFile(terminal, ("backup", "The copy that is written."), "Copy the whole bench into FILE, while it is in use too, and read the copy again. On a PostgreSQL server the copy is an archive.\nExample: shimwright backup shed-copy.db --db shed.db", BackUpAsync, Replace),
        OnFile(terminal, ("restore", "The copy or archive."), "Put a copy or an archive in the place of the bench. The copy is checked first, and the bench as it is now is set aside. Close the bench before.\nExample: shimwright restore shed-copy.db --db shed.db", RestoreAsync),
        Check(terminal),
        OnFile(terminal, ("export", "The archive that is written."), "Write the whole bench as one open archive: a zip of JSON lines.\nExample: shimwright export shed.zip --db shed.db", ExportAsync, Replace),
        OnFile(terminal, ("import", "The archive."), "Take an archive into a bench that is new or empty.\nExample: shimwright import shed.zip --db new.db", ImportAsync),
    ];

    private static Command OnFile(
        Terminal terminal, (string Name, string File) named, string description, Func<Terminal, BenchDatabase, (string File, bool Replaces, bool IsJson), CancellationToken, Task<int>> run, params Option[] more)
    {
        var file = new Argument<string>("FILE") { Description = named.File };
        Option<string?> database = DatabaseOption.Create();
        var command = new Command(named.Name, description) { file, database, Json };
        Array.ForEach(more, command.Add);
        command.SetAction((parsed, cancel) => DatabaseOption.UseAsync(terminal, parsed.GetValue(database), bench =>
            run(terminal, bench, (parsed.GetValue(file)!, more.Contains(Replace) && parsed.GetValue(Replace), parsed.GetValue(Json)), cancel)));
        return command;
    }

    private static Command Check(Terminal terminal)
    {
        Option<string?> database = DatabaseOption.Create();
        var command = new Command("check", "Look the whole bench over: the order of its file, the checksum of every row, and whether the rows belong together. Nothing is changed.\nExample: shimwright check --db shed.db") { database, Json };
        command.SetAction((parsed, cancel) => DatabaseOption.UseAsync(terminal, parsed.GetValue(database), async bench =>
        {
            SoundReport report = await RowsProgress.ShowAsync(terminal, "Checking", p => bench.CheckAsync(p, cancel));
            if (parsed.GetValue(Json))
            {
                terminal.Output.WriteLine(ResultJson.Write(
                    new CheckResult(report.Engines, report.Jobs, report.Facts, report.Entries, report.IsSound, report.WithoutSum, report.Damage), indented: false));
            }
            else
            {
                foreach (string damage in report.Damage)
                {
                    terminal.Output.WriteLine(damage);
                }

                terminal.Output.WriteLine(report.IsSound
                    ? $"{bench.Description} is sound: {InWords(report)}, each as it was written."
                    : $"{bench.Description} is damaged. Put the newest copy in its place with 'shimwright restore', which keeps the damaged file.");
                if (report.WithoutSum > 0)
                {
                    terminal.Output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{report.WithoutSum} rows have no checksum yet; the next 'shimwright serve' gives them one."));
                }
            }

            return report.IsSound ? ExitCode.Done : ExitCode.BadInput;
        }));
        return command;
    }

    private static async Task<int> BackUpAsync(Terminal terminal, BenchDatabase bench, (string File, bool Replaces, bool IsJson) asked, CancellationToken cancel)
    {
        await ReadyAsync(terminal, bench, asked.IsJson, cancel);
        SoundReport report = await RowsProgress.ShowAsync(terminal, "Checking the copy", p => bench.BackUpAsync(asked.File, asked.Replaces, p, cancel));
        return Said(terminal, asked.IsJson, report, asked.File, $"Copied to {asked.File}, and read again: {InWords(report)}.");
    }

    private static async Task<int> RestoreAsync(Terminal terminal, BenchDatabase bench, (string File, bool Replaces, bool IsJson) asked, CancellationToken cancel)
    {
        RestoredBench restored = await RowsProgress.ShowAsync(terminal, "Checking the copy", p => bench.RestoreAsync(asked.File, p, cancel));
        return Said(
            terminal, asked.IsJson, restored.Report, asked.File,
            $"{bench.Description} is now as it was in {asked.File}: {InWords(restored.Report)}." + (restored.Aside is { } aside ? $" As it was before, it lies in {aside}" : ""),
            restored.Aside);
    }

    private static async Task<int> ExportAsync(Terminal terminal, BenchDatabase bench, (string File, bool Replaces, bool IsJson) asked, CancellationToken cancel)
    {
        await ReadyAsync(terminal, bench, asked.IsJson, cancel);
        SoundReport report = SoundReport.Of(await RowsProgress.ShowAsync(terminal, "Writing", p => bench.ExportAsync(asked.File, asked.Replaces, p, cancel)));
        return Said(terminal, asked.IsJson, report, asked.File, $"Exported to {asked.File}, and read again: {InWords(report)}.");
    }

    private static async Task<int> ImportAsync(Terminal terminal, BenchDatabase bench, (string File, bool Replaces, bool IsJson) asked, CancellationToken cancel)
    {
        // Whatever the archive is: a new bench is not made for one that is not there.
        if (!File.Exists(asked.File))
        {
            throw new FileNotFoundException($"{asked.File}: there is no such file; name an archive that 'shimwright export' has written");
        }

        await bench.PrepareAsync(cancel);
        SoundReport report = SoundReport.Of(await RowsProgress.ShowAsync(terminal, "Reading", p => bench.ImportAsync(asked.File, p, cancel)));
        return Said(terminal, asked.IsJson, report, asked.File, $"{bench.Description} holds now what {asked.File} does: {InWords(report)}.");
    }

    /// <summary>Brings the bench up to this program, as a start would; a bench that is not there is not made.</summary>
    private static async Task ReadyAsync(Terminal terminal, BenchDatabase bench, bool isJson, CancellationToken cancel)
    {
        if (bench.File is { } file && !File.Exists(file))
        {
            throw BenchDatabaseException.NotHere(file);
        }

        if (await bench.PrepareAsync(cancel) is { } copy && !isJson)
        {
            terminal.Output.WriteLine($"The bench was brought up to this program; as it was, it lies in {copy}");
        }
    }

    private static int Said(Terminal terminal, bool isJson, SoundReport report, string file, string words, string? aside = null)
    {
        if (isJson)
        {
            terminal.Output.WriteLine(ResultJson.Write(
                new CopyResult(report.Engines, report.Jobs, report.Facts, report.Entries, Path.GetFullPath(file), aside), indented: false));
        }
        else
        {
            terminal.Output.WriteLine(words);
        }

        return ExitCode.Done;
    }

    private static string InWords(SoundReport report) => string.Create(
        CultureInfo.InvariantCulture, $"{Counted(report.Engines, "engine")}, {Counted(report.Jobs, "job")} with {Counted(report.Facts, "fact")}, {report.Entries} drawer {(report.Entries == 1 ? "entry" : "entries")}");

    private static string Counted(int count, string what) => string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
