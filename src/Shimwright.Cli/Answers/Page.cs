using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Shimwright.Cli.Running;
using Shimwright.Domain.Engines;
using Shimwright.Domain.Planning;
using Shimwright.Jobs;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Wording;
using Spectre.Console;

namespace Shimwright.Cli.Answers;

/// <summary>A page of output for people: the console it is drawn on and the unit in which lengths are written.</summary>
internal sealed class Page
{
    /// <summary>Blanks between two columns.</summary>
    private const int Between = 2;

    public Page(Terminal terminal, LengthUnit unit)
    {
        Lengths = new LengthStyle(unit);
        Console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Out = new AnsiConsoleOutput(terminal.OutputIsTerminal ? terminal.Output : new TrimmedWriter(terminal.Output)),
            Ansi = terminal.OutputIsTerminal ? AnsiSupport.Detect : AnsiSupport.No,
            ColorSystem = terminal.OutputIsTerminal ? ColorSystemSupport.Detect : ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
        });
        Console.Profile.Width = terminal.Width;
        Console.Profile.Capabilities.Unicode = terminal.OutputIsTerminal && Console.Profile.Capabilities.Unicode;
    }

    public IAnsiConsole Console { get; }

    /// <summary>How lengths are written on this page.</summary>
    public LengthStyle Lengths { get; }

    public string UnitName => Lengths.UnitName;

    /// <summary>Whether there is room for more than the numbers.</summary>
    public bool IsWide => Console.Profile.Width >= 100;

    public static Option<LengthUnit> UnitOption() => new("--unit")
    {
        Description = "The unit of lengths in tables, mm unless given (JSON is always mm).",
        HelpName = "mm|in|thou",
        CustomParser = argument => LengthStyle.UnitOf(argument.Tokens[0].Value) ?? Unknown(argument),
    };

    private static LengthUnit Unknown(ArgumentResult argument)
    {
        argument.AddError($"--unit: found \"{argument.Tokens[0].Value}\", allowed is mm, in or thou.");
        return LengthUnit.Mm;
    }

    /// <summary>A clearance in the page's unit, to about a micrometre.</summary>
    public string Clearance(double millimetres) => Lengths.Clearance(millimetres);

    public string Band(ClearanceBand band) => Lengths.Band(band);

    /// <summary>What a plan opens, in words.</summary>
    public static string ToOpen(ShimPlan plan) => plan.Opened.Count == 0 ? "nothing" : string.Join(", ", plan.Opened);

    /// <summary>What a plan buys, in words.</summary>
    public string ToBuy(ShimPlan plan) => plan.Bought.Count == 0
        ? "nothing"
        : string.Join(", ", plan.Bought.Select(b => $"{b.Count} x {Shim(b.Thickness.Millimetres)}"));

    /// <summary>A shim in the page's unit: hundredths of a millimetre, and the third digit where it has one.</summary>
    public string Shim(double millimetres) => Lengths.Shim(millimetres);

    public static string Chance(double chance) => Text(chance, "0.000");

    /// <summary>What the chance of a plan is that of.</summary>
    public static string FirstTime(Job job, bool hasStranded)
    {
        string who = hasStranded ? "all but the stranded" : "all";
        return job.Horizon > 0
            ? string.Create(CultureInfo.InvariantCulture, $"Chance that {who} pass the first time and stay in band for {job.Horizon:0.###} {(job.Wear!.CountsKilometres ? "km" : "hours")}")
            : $"Chance that {who} pass the first time";
    }

    public static string Minutes(double minutes) => Text(minutes, "0.0");

    /// <summary>A table whose numbers are never broken over two lines.</summary>
    public static Table Table(params ReadOnlySpan<string> columns)
    {
        Table table = new Table().SimpleBorder();
        foreach (string column in columns)
        {
            table.AddColumn(new TableColumn(column).NoWrap().PadLeft(0).PadRight(1));
        }

        return table;
    }

    /// <summary>Draws a table of rows with the columns for which this page has room.</summary>
    public void Rows<T>(IEnumerable<T> rows, params IEnumerable<Column<T>> columns)
    {
        T[] all = [.. rows];
        Column<T>[] shown = [.. columns.Where(c => c.Shown == Shown.Always || (c.Shown != Shown.Narrow) == IsWide)];
        if (shown.Sum(c => Between + all.Select(r => c.Text(r).Length).Append(c.Heading.Length).Max()) > Console.Profile.Width)
        {
            shown = [.. shown.Where(c => c.Shown != Shown.Roomy)];
        }

        Table table = Table([.. shown.Select(c => c.Heading)]);
        foreach (T row in all)
        {
            table.AddRow(shown.Select(c => new Text(c.Text(row))));
        }

        Console.Write(table);
    }

    /// <summary>How lengths are written in sentences of this page.</summary>
    public LengthWords Words => Lengths.Words;

    public void Paragraph(string text)
    {
        Console.WriteLine(text);
        Console.WriteLine();
    }

    public void Heading(string text) => Console.MarkupLineInterpolated($"[bold]{text}[/]");

    /// <summary>The cautions of one job; nothing where there are none.</summary>
    public void OwnCautions(IReadOnlyList<string> cautions)
    {
        if (cautions.Count > 0)
        {
            Heading("Cautions for this job");
            Bullets(cautions);
        }
    }

    public void Bullets(IEnumerable<string> lines)
    {
        var grid = new Grid().AddColumn(new GridColumn().NoWrap().PadLeft(1).PadRight(1)).AddColumn(new GridColumn().PadRight(0));
        foreach (string line in lines)
        {
            grid.AddRow(new Text("-"), new Text(line));
        }

        Console.Write(grid);
        Console.WriteLine();
    }

    private static string Text(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
