using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Setups;

namespace Shimwright.Web.Tests.Pages;

/// <summary>A job of the demo workshop on a running bench, as far as a test wants it to have come.</summary>
public sealed record DemoJob(RunningBench Bench, Guid Id, HttpClient Client) : IDisposable
{
    private static readonly TimeProvider Clock = TimeProvider.System;

    /// <summary>Starts one from a file of the demo folder, with the facts that stand in it and that the test wants.</summary>
    public static async Task<DemoJob> StartAsync(RunningBench bench, string file, Func<JobFact, bool> which)
    {
        ParsedSetup reading = JobSetup.FromFile(await File.ReadAllBytesAsync(Path.Combine(AppContext.BaseDirectory, "demo", file), TestContext.Current.CancellationToken));
        return await StartAsync(bench, reading.Setup!, [.. reading.Facts.Where(which)]);
    }

    /// <summary>Starts one from a setup.</summary>
    public static async Task<DemoJob> StartAsync(RunningBench bench, JobSetup setup, params IReadOnlyList<JobFact> facts)
    {
        var engine = Guid.CreateVersion7(Clock.GetUtcNow());
        await bench.Database.Engines.AddAsync(engine, setup.Card.Engine.Name, setup.Card, new CardDetails(), cancel: TestContext.Current.CancellationToken);
        Guid job = await bench.Database.Jobs.StartAsync(engine, setup, facts, Guid.CreateVersion7(Clock.GetUtcNow()), "file", TestContext.Current.CancellationToken);
        return new(bench, job, bench.NewClient());
    }

    /// <summary>No fact of the file: the job as it is when it was just started.</summary>
    public static Func<JobFact, bool> Nothing { get; } = _ => false;

    /// <summary>The check: what was read and found before anything was changed.</summary>
    public static bool TheCheck(JobFact fact) => fact is ReadingFact { Part: SheetPart.Check } or ThicknessFound;

    /// <summary>The same on a device without script.</summary>
    public DemoJob WithoutScript()
    {
        Client.Dispose();
        return this with { Client = Bench.NewClient(hasScript: false) };
    }

    public string Address(string page) => $"/jobs/{Id}/{page}";

    /// <summary>A page of the job; where it asks for the crank first, the crank is turned.</summary>
    public async Task<FetchedPage> PageAsync(string page)
    {
        FetchedPage fetched = await FetchedPage.GetAsync(Client, Address(page));
        if (fetched.Document.QuerySelector("input[name='Crank.Stop']") is null)
        {
            return fetched;
        }

        await FormPost.On(Client, fetched, "crank").SubmitAsync();
        return await FetchedPage.GetAsync(Client, Address(page));
    }

    public async Task<FormPost> FormAsync(string page, string handler) => FormPost.On(Client, await PageAsync(page), handler);

    public async Task<StoredJob> StoredAsync() => (await Bench.Database.Jobs.FindAsync(Id, TestContext.Current.CancellationToken))!;

    public void Dispose() => Client.Dispose();
}
