namespace Shimwright.Cli.Answers;

/// <summary>On which pages a column has room.</summary>
internal enum Shown
{
    /// <summary>On every page.</summary>
    Always,

    /// <summary>On a wide page only.</summary>
    Wide,

    /// <summary>On a wide page that has room for all of the table: left out sooner than that a number is broken.</summary>
    Roomy,

    /// <summary>On a narrow page only.</summary>
    Narrow,
}

/// <summary>A column of a table: its heading and what stands in it for a row.</summary>
internal sealed record Column<T>(string Heading, Func<T, string> Text, Shown Shown = Shown.Always);
