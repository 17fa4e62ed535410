using System.Globalization;

namespace Shimwright.Cli.Tests.Samples;

/// <summary>A folder for the files of one test, gone when the test is over.</summary>
internal sealed class JobFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("shimwright-test-");

    public string Path => _folder.FullName;

    public string Write(string name, string text)
    {
        string file = System.IO.Path.Combine(Path, name);
        File.WriteAllText(file, text);
        return file;
    }

    public void Dispose() => _folder.Delete(recursive: true);

    /// <summary>A job of one valve in one line of text.</summary>
    public static string Line(string valve = "I1", double value = 0.15, double thickness = 2.5) => string.Create(
        CultureInfo.InvariantCulture,
        $$$"""{"format": "shimwright-job/1", "engine": {"name": "Loaner", "valvetrain": "shim-over-bucket", "valves": [{{{Valve(valve)}}}]}, "check": {"clock": 10, "readings": [{"valve": "{{{valve}}}", "value": {{{value}}}}], "fitted": [{"valve": "{{{valve}}}", "thickness": {{{thickness}}}, "by": "marked"}]}}""");

    private static string Valve(string id) =>
        $$"""{"id": "{{id}}", "cylinder": 1, "side": "intake", "access": "cover", "band": [0.12, 0.18]}""";
}
