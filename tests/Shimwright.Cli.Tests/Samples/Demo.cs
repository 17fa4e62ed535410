namespace Shimwright.Cli.Tests.Samples;

/// <summary>The job files of the demo folder.</summary>
internal static class Demo
{
    public const string Plain = "03-leave-alone.json";
    public const string WithRecheck = "01-flood-pump.json";
    public const string Stranded = "07-stranded-valve.json";

    public static IReadOnlyList<string> Files { get; } =
        [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "demo"), "*.json").Order(StringComparer.Ordinal)];

    public static string At(string file) => Path.Combine(AppContext.BaseDirectory, "demo", file);
}
