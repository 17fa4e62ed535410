using System.Globalization;
using System.Text;

namespace Shimwright.Fuzz;

/// <summary>Sends spoilt inputs, one after another, and notes which fell, took longer than they may, or more memory.</summary>
internal static class FuzzRun
{
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(5);
    private const long MostBytes = 500_000_000;
    private const string Folder = "fuzz-found";

    public static async Task<int> RunAsync(int seed, int count, string? only = null)
    {
        await using SpoiltRequests requests = await SpoiltRequests.StartAsync(seed);
        // A kind of input is a name and what makes one of its inputs and tries it.
        (string Name, Func<SpoiltInput> Next)[] kinds =
        [
            ("job", new SpoiltJobs(seed).Next),
            ("drawer", new SpoiltTables(seed).Drawer),
            ("trials", new SpoiltTables(seed + 1).Trials),
            ("api", requests.Api),
            ("form", requests.Form),
            ("archive", new SpoiltArchives(seed).Next),
        ];
        kinds = [.. kinds.Where(k => only is null || only.Split(',').Contains(k.Name))];
        int[] tried = new int[kinds.Length];
        int found = 0;
        for (int i = 0; i < count; i++)
        {
            (string name, Func<SpoiltInput> next) = kinds[i % kinds.Length];
            tried[i % kinds.Length]++;
            SpoiltInput input = next();
            Exception? fault = null;
            Measured taken = await Measured.OfAsync(async () =>
            {
                try
                {
                    await input.Try();
                }
                catch (Exception fell)
                {
                    fault = fell;
                }
            });
            if ((fault?.ToString() ?? (taken.Processor > Longest || taken.PeakBytes > MostBytes ? "too much" : null)) is { } why)
            {
                found++;
                Note(name, i, input, string.Create(CultureInfo.InvariantCulture, $"{taken.Processor.TotalSeconds:0.00} s, {taken.PeakBytes / 1e6:0} MB: {why}"));
            }
        }

        Console.WriteLine($"seed {seed}: {string.Join(", ", kinds.Zip(tried, (k, n) => $"{n} {k.Name}"))}; found {found}");
        return found == 0 ? 0 : 1;
    }

    private static void Note(string name, int number, SpoiltInput input, string why)
    {
        Directory.CreateDirectory(Folder);
        string file = Path.Combine(Folder, $"{name}-{number}");
        File.WriteAllBytes(file, input.Bytes);
        File.WriteAllText(file + ".txt", why);
        Console.WriteLine($"{name} {number} ({input.What}): {why.Split('\n')[0]}");
    }
}

/// <summary>A spoilt input.</summary>
/// <param name="What">What it is, in a few words.</param>
/// <param name="Bytes">The input.</param>
/// <param name="Try">Tries it; what it throws is a find.</param>
internal sealed record SpoiltInput(string What, byte[] Bytes, Func<Task> Try)
{
    public static SpoiltInput Of(string what, byte[] bytes, Action<byte[]> attempt) => new(what, bytes, () =>
    {
        attempt(bytes);
        return Task.CompletedTask;
    });
}

/// <summary>The demonstration jobs and trials, to spoil.</summary>
internal static class Demos
{
    private static readonly string Folder = Find();

    public static IReadOnlyList<string> Jobs { get; } = [.. Directory.GetFiles(Folder, "*.json").Order(StringComparer.Ordinal).Select(File.ReadAllText)];

    public static string Trials { get; } = File.ReadAllText(Path.Combine(Folder, "feel-trials.csv"), Encoding.UTF8);

    private static string Find()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "Shimwright.slnx")))
        {
            at = Path.GetDirectoryName(at);
        }

        return Path.Combine(at ?? throw new InvalidOperationException("The demonstration jobs lie beside the source."), "demo");
    }
}
