namespace Shimwright.Pages.Tests.Samples;

/// <summary>A file of the demo folder.</summary>
internal static class DemoFile
{
    public static byte[] Read(string name) => File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "demo", name));
}
