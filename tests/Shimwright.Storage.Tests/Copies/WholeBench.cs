using Shimwright.Bench;
using Shimwright.Bench.Contents;
using Shimwright.Jobs.Fitting;
using Shimwright.Storage.Database;
using Shimwright.Testing.Benches;
using Shimwright.Testing.Workshop;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Copies;

/// <summary>A bench with something in every table, and what it says.</summary>
internal static class WholeBench
{
    public static async Task<TestDatabase> OnAsync(DatabaseKind kind)
    {
        TestDatabase database = await TestDatabase.PreparedAsync(kind);
        FullWorkshop workshop = new(database.Bench, Guid.NewGuid, f => File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "demo", f)));
        await workshop.FillAsync();
        await using BenchContext context = database.Bench.NewContext();
        context.ShimPromises.Add(new() { JobId = workshop.JobAt(JobStage.Fit), Diameter = 9480, Thickness = 2500, By = "marked", Count = 2, Fitted = 1 });
        await context.SaveChangesAsync(Cancel);
        return database;
    }

    /// <summary>Every row of a bench as a line, in order: what an archive has of it.</summary>
    public static async Task<IReadOnlyList<string>> LinesAsync(this IBench bench)
    {
        using MemoryStream archive = new();
        BenchArchive.Write(await bench.Copies.ContentsAsync(Cancel), DateTime.UnixEpoch, archive);
        return ArchiveText.LinesOf(archive);
    }
}
