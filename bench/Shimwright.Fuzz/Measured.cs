using System.Diagnostics;

namespace Shimwright.Fuzz;

/// <summary>What something took: processor time of the whole program, and the most memory that it had while it ran.</summary>
/// <param name="Processor">Processor time.</param>
/// <param name="PeakBytes">Resident memory at its greatest, bytes.</param>
internal readonly record struct Measured(TimeSpan Processor, long PeakBytes)
{
    private const string Status = "/proc/self/status", ClearPeak = "/proc/self/clear_refs";

    public static Measured Of(Action work)
    {
        Forget();
        TimeSpan before = Environment.CpuUsage.TotalTime;
        work();
        return new(Environment.CpuUsage.TotalTime - before, Peak());
    }

    public static async Task<Measured> OfAsync(Func<Task> work)
    {
        Forget();
        TimeSpan before = Environment.CpuUsage.TotalTime;
        await work();
        return new(Environment.CpuUsage.TotalTime - before, Peak());
    }

    /// <summary>Starts the peak anew.</summary>
    private static void Forget()
    {
        if (File.Exists(ClearPeak))
        {
            File.WriteAllText(ClearPeak, "5");
        }
    }

    private static long Peak() => File.Exists(Status)
        ? File.ReadLines(Status).Where(l => l.StartsWith("VmHWM:", StringComparison.Ordinal))
            .Select(l => long.Parse(l.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], System.Globalization.CultureInfo.InvariantCulture) * 1024).First()
        : Process.GetCurrentProcess().PeakWorkingSet64;
}
