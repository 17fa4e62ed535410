using System.Globalization;
using Shimwright.Bench;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Labels;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Files;

/// <summary>What somebody who fetches a file comes with.</summary>
/// <param name="Bench">The bench.</param>
/// <param name="Time">The clock.</param>
/// <param name="Home">What stands before a page's path where it is printed.</param>
/// <param name="Value">The value of a part of the address or of its query, or null.</param>
/// <param name="Cancel">Stops it.</param>
public sealed record FileAsk(IBench Bench, TimeProvider Time, string Home, Func<string, string?> Value, CancellationToken Cancel = default)
{
    /// <summary>The id at a part of the address.</summary>
    public Guid Id(string name) => Guid.Parse(Value(name)!, CultureInfo.InvariantCulture);

    /// <summary>The time, UTC.</summary>
    public DateTime Now => Time.GetUtcNow().UtcDateTime;
}

/// <summary>What came of it.</summary>
/// <param name="File">The file; null where there is none.</param>
/// <param name="Problems">What is wrong with what was asked for.</param>
public sealed record FileMade(BenchFile? File, IReadOnlyList<JobProblem> Problems);

/// <summary>An address at which a file is fetched.</summary>
/// <param name="Template">The address; a part in braces is an id.</param>
/// <param name="Access">Who may fetch it: one of <see cref="AccessRules"/>.</param>
/// <param name="IsShown">Whether it is a picture within a page, and not to be saved under a name.</param>
/// <param name="Make">Makes the file.</param>
public sealed record FileAddress(string Template, string Access, bool IsShown, Func<FileAsk, Task<FileMade>> Make);

/// <summary>The addresses of the files to which pages lead, for whoever hands them out.</summary>
public static class FileAddresses
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<FileAddress> All { get; } =
    [
        new("/jobs/{id:guid}/file", AccessRules.Look, false, Of(a => BenchFiles.JobAsync(a.Bench, a.Id("id"), a.Cancel))),
        new("/jobs/{id:guid}/record.pdf", AccessRules.Look, false, Of(a => BenchFiles.RecordAsync(a.Bench, a.Id("id"), a.Time, a.Cancel))),
        new("/jobs/{id:guid}/photos/{photo:guid}", AccessRules.Look, true, Of(a => BenchFiles.PhotoAsync(a.Bench, a.Id("id"), a.Id("photo"), small: false, a.Cancel))),
        new("/jobs/{id:guid}/photos/{photo:guid}/thumb", AccessRules.Look, true, Of(a => BenchFiles.PhotoAsync(a.Bench, a.Id("id"), a.Id("photo"), small: true, a.Cancel))),
        new("/drawer/labels.pdf", AccessRules.Look, false, a => LabelsAsync(a, LabelKind.Drawer, isPdf: true)),
        new("/drawer/labels.svg", AccessRules.Look, true, a => LabelsAsync(a, LabelKind.Drawer, isPdf: false)),
        new("/engines/labels.pdf", AccessRules.Look, false, a => LabelsAsync(a, LabelKind.Engines, isPdf: true)),
        new("/engines/labels.svg", AccessRules.Look, true, a => LabelsAsync(a, LabelKind.Engines, isPdf: false)),
        new("/settings/workshop/logo", AccessRules.Look, true, Of(a => BenchFiles.LogoAsync(a.Bench, a.Cancel))),
        new("/engines/{id:guid}/engine.zip", AccessRules.Own, false, Of(a => BenchFiles.EngineAsync(a.Bench, a.Id("id"), a.Now, a.Cancel))),
        new("/settings/copies/bench.zip", AccessRules.Own, false, Of(async a => await BenchFiles.ArchiveAsync(a.Bench, a.Now, a.Cancel))),
        .. BenchLists.All.Select(l => l.Address),
    ];

    /// <summary>Fetches what lies at an address where there is no server.</summary>
    /// <param name="bench">The bench.</param>
    /// <param name="address">The address in full.</param>
    /// <param name="time">The clock.</param>
    /// <param name="home">What stands before a page's path where it is printed.</param>
    /// <returns>The file, or null where none lies there.</returns>
    public static async Task<BenchFile?> FetchAsync(IBench bench, Uri address, TimeProvider time, string home)
    {
        ArgumentNullException.ThrowIfNull(address);
        AddressQuery query = new(address.OriginalString);
        foreach (FileAddress file in All)
        {
            if (Parts(file.Template, address.AbsolutePath) is { } parts)
            {
                return (await file.Make(new(bench, time, home, name => parts.GetValueOrDefault(name) ?? query[name]))).File;
            }
        }

        return null;
    }

    private static Dictionary<string, string>? Parts(string template, string path)
    {
        string[] asked = path.Split('/'), known = template.Split('/');
        Dictionary<string, string> parts = [];
        foreach ((string part, string name) in asked.Zip(known))
        {
            if (name.StartsWith('{') && Guid.TryParse(part, CultureInfo.InvariantCulture, out _))
            {
                parts.Add(name[1..name.IndexOf(':', StringComparison.Ordinal)], part);
            }
            else if (part != name)
            {
                return null;
            }
        }

        return asked.Length == known.Length ? parts : null;
    }

    private static Func<FileAsk, Task<FileMade>> Of(Func<FileAsk, Task<BenchFile?>> make) => async ask => new(await make(ask), []);

    private static async Task<FileMade> LabelsAsync(FileAsk ask, LabelKind kind, bool isPdf)
    {
        List<JobProblem> problems = [];
        LabelQuery query = LabelQuery.Read(kind, ask.Value, problems);
        int sheet = LabelFiles.SheetOf(ask.Value("sheet"), problems);
        byte[]? file = problems.Count > 0 ? null
            : isPdf ? await LabelFiles.PdfAsync(ask.Bench, query, ask.Home, ask.Time, ask.Cancel)
            : await LabelFiles.SvgAsync(ask.Bench, query, sheet, ask.Home, ask.Cancel);
        return new(file is null ? null : isPdf ? new("labels.pdf", "application/pdf", file) : new("labels.svg", "image/svg+xml", file), problems);
    }
}
