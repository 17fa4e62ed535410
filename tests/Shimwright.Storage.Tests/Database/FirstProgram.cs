using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Shimwright.Jobs.Facts;
using Shimwright.Storage.Database;
using Shimwright.Testing.Benches;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Storage.Tests.Database;

/// <summary>Writes rows as the first program did, into the tables that it had.</summary>
internal sealed class FirstProgram(BenchContext context, TimeProvider time)
{
    /// <summary>A database as the first program left it, with a job.</summary>
    public static async Task<Guid> MakeAsync(TestDatabase database)
    {
        if (database.Bench.File is { } file)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            await File.WriteAllBytesAsync(file, [], Cancel);
        }

        await using BenchContext context = database.Bench.NewContext();
        await context.GetService<IMigrator>().MigrateAsync("Start", cancellationToken: Cancel);
        return await new FirstProgram(context, database.Time).AddJobsAsync();
    }

    private long Now => time.GetUtcNow().UtcTicks;

    /// <summary>An engine with an open job that has a note, and a closed one.</summary>
    /// <returns>The open job.</returns>
    public async Task<Guid> AddJobsAsync()
    {
        Guid card = Guid.NewGuid(), engine = Guid.NewGuid();
        string json = Card().Json;
        await context.Database.ExecuteSqlAsync(
            $"""INSERT INTO cards ("Id", "Title", "Card", "Details", "Version", "ChangedAt") VALUES ({card}, {"Flood pump 7"}, {json}, {"{}"}, {1}, {Now})""", Cancel);
        await context.Database.ExecuteSqlAsync(
            $"""INSERT INTO engines ("Id", "CardId", "Name", "Search", "Notes", "Version", "AddedAt") VALUES ({engine}, {card}, {"Flood pump 7"}, {"FLOOD PUMP 7"}, {""}, {1}, {Now})""", Cancel);
        await AddJobAsync(engine, new ClearanceRead(SheetPart.Check, "I1", 0.19, 0.01), new JobClosed(118, "", "", ""));
        return await AddJobAsync(engine, new JobNoted("from before"));
    }

    private async Task<Guid> AddJobAsync(Guid engine, params JobFact[] facts)
    {
        Guid job = Guid.NewGuid();
        string setup = Setup().Json;
        long? closed = facts.Any(f => f is JobClosed) ? Now : null;
        await context.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO jobs ("Id", "EngineId", "Setup", "Stage", "Last", "Action", "Clock", "StartedAt", "ChangedAt", "ClosedAt")
            VALUES ({job}, {engine}, {setup}, {0}, {facts.Length}, {Guid.NewGuid()}, {118.0}, {Now}, {Now}, {closed})
            """,
            Cancel);
        foreach ((int i, JobFact fact) in facts.Index())
        {
            await context.Database.ExecuteSqlAsync(
                $"""INSERT INTO facts ("JobId", "Number", "Action", "Device", "At", "Fact") VALUES ({job}, {i + 1}, {Guid.NewGuid()}, {"phone"}, {Now}, {FactJson.Write(fact)})""", Cancel);
        }

        return job;
    }
}
