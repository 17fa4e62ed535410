using System.Globalization;
using Shimwright.Testing.Served;

namespace Shimwright.Browser.Work;

/// <summary>What was counted, for bench/RESULTS.md: a line each in artifacts/counted.csv.</summary>
internal static class Counted
{
    private static readonly Lock Turn = new();

    public static void Write(string what, int taps, int loads, int scrolls) =>
        Add(string.Create(CultureInfo.InvariantCulture, $"{what},{taps} taps,{loads} loads,{scrolls} scrolls"));

    public static void Height(string page, int pixels) => Add(string.Create(CultureInfo.InvariantCulture, $"{page},{pixels} px"));

    private static void Add(string line)
    {
        lock (Turn)
        {
            File.AppendAllLines(Path.Combine(Directory.CreateDirectory(Path.Combine(Repository.Root, "artifacts")).FullName, "counted.csv"), [line]);
        }
    }
}
