using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Shimwright.Bench.Devices;
using Shimwright.Storage;
using Shimwright.Testing.Served;

namespace Shimwright.Load;

internal static class Program
{
    private const int Engines = 1_000;
    private const int Fleet = 10_000;
    private const int Jobs = 10_000;
    private const double PerSecond = 100;
    private const int Counted = 200;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(20);
    private static readonly (string Page, Func<string> Address) Bare = ("healthz (bare)", () => "/healthz");

    /// <summary>
    /// Optional argument: for how many seconds the pages are asked (60). First on this machine only, then as a phone that was let in asks, over HTTPS.
    /// Or "refresh", and of how many engines (10,000): forecasts that are all stale at once. Or "refresh-one-card": the same with engines that teach a card's rates.
    /// </summary>
    private static async Task<int> Main(string[] args)
    {
        bool isOneCard = args is ["refresh-one-card", ..], isRefresh = isOneCard || args is ["refresh", ..];
        int number = args.Skip(isRefresh ? 1 : 0).Select(a => int.Parse(a, CultureInfo.InvariantCulture)).FirstOrDefault(isRefresh ? Fleet : 60);
        string folder = Directory.CreateTempSubdirectory("shimwright-load-").FullName;
        try
        {
            string file = Path.Combine(folder, "bench.db");
            return isRefresh ? await FleetRefresh.RunAsync(Console.Out, file, number, isOneCard) : await RunAsync(file, TimeSpan.FromSeconds(number));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<int> RunAsync(string file, TimeSpan length)
    {
        long start = Stopwatch.GetTimestamp();
        FilledBench bench = await FilledBench.MakeAsync(BenchDatabase.At(file, TimeProvider.System), Engines, Jobs);
        SqliteConnection.ClearAllPools();
        TextWriter to = Console.Out;
        to.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{Engines} engines and {Jobs} jobs, {new FileInfo(file).Length / 1e6:0} MB, filled in {Stopwatch.GetElapsedTime(start).TotalSeconds:0} s"));

        int here = await AskAsync(to, bench, file, length, isShop: false);
        to.WriteLine("Behind HTTPS, by a device that was let in:");
        int shop = await AskAsync(to, bench, file, length, isShop: true);
        return Math.Max(here, shop);
    }

    private static async Task<int> AskAsync(TextWriter to, FilledBench bench, string file, TimeSpan length, bool isShop)
    {
        await using ServedBench server = await ServedBench.StartAsync(file, Path.GetDirectoryName(file)!, null, isShop ? ["--lan", "--lock"] : []);
        using HttpClientHandler handler = new() { UseCookies = false, ServerCertificateCustomValidationCallback = HttpClientHandler.DangerousAcceptAnyServerCertificateValidator };
        using var client = new HttpClient(handler) { BaseAddress = server.Address };
        // Browsers run the script: a page leaves out what pays next, and it is fetched afterwards.
        client.DefaultRequestHeaders.Add("Cookie", "script=1; " + (isShop ? await LetInAsync(file) : $"shimwright-device={Guid.CreateVersion7(TimeProvider.System.GetUtcNow()):N}"));
        IReadOnlyList<(string Page, Func<string> Address)> pages = LoadPages.Of(bench);
        await SayFirstAsync(to, client, pages);

        var loop = new OpenLoop(client, PerSecond);
        await loop.RunAsync(pages, WarmUp);
        Dictionary<string, double> work = [];
        foreach ((string page, Func<string> address) in pages.Prepend(Bare))
        {
            work.Add(page, await ProcessorTimeAsync(server, client, address));
        }

        IReadOnlyList<Answered> bare = await loop.RunAsync([Bare], length / 2);
        IReadOnlyList<Answered> answers = await loop.RunAsync(pages, length);
        LatencyTable.Print(to, bare, answers, work);
        int failed = answers.Concat(bare).Count(a => a.Status != 200);
        to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{PerSecond} requests/s in all for {length.TotalSeconds:0} s, {failed} failed"));
        return failed == 0 ? 0 : 1;
    }

    /// <summary>The cookie of a phone that is let in.</summary>
    private static async Task<string> LetInAsync(string file)
    {
        var database = BenchDatabase.At(file, TimeProvider.System);
        OneTimeCode code = await database.Devices.MakeCodeAsync(DeviceRole.Mechanic);
        LetIn entry = await database.Devices.LetInAsync(code.Text, "phone", "Ana Quill");
        SqliteConnection.ClearAllPools();
        return $"__Host-shimwright-{database.Id}={entry.Token}";
    }

    /// <summary>What one request costs the server, ms: its own processor time, which a busy machine hardly changes.</summary>
    private static async Task<double> ProcessorTimeAsync(ServedBench server, HttpClient client, Func<string> address)
    {
        TimeSpan before = server.ProcessorTime;
        for (int i = 0; i < Counted; i++)
        {
            using HttpResponseMessage answer = await client.GetAsync(new Uri(address(), UriKind.Relative));
            await answer.Content.CopyToAsync(Stream.Null);
        }

        return (server.ProcessorTime - before).TotalMilliseconds / Counted;
    }

    /// <summary>What the first person of the day waits: the server has just been started and has answered nothing.</summary>
    private static async Task SayFirstAsync(TextWriter to, HttpClient client, IReadOnlyList<(string Page, Func<string> Address)> pages)
    {
        foreach ((string page, Func<string> address) in pages)
        {
            long start = Stopwatch.GetTimestamp();
            using HttpResponseMessage answer = await client.GetAsync(new Uri(address(), UriKind.Relative));
            byte[] body = await answer.Content.ReadAsByteArrayAsync();
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"first {page}: {(int)answer.StatusCode}, {body.Length / 1e3:0.0} kB in {Stopwatch.GetElapsedTime(start).TotalMilliseconds:0} ms"));
        }
    }
}
