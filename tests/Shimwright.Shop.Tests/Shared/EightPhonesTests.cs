using System.Collections.Concurrent;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Jobs;
using Shimwright.Shop.Tests.Door;
using Shimwright.Testing;
using Shimwright.Testing.Benches;

namespace Shimwright.Shop.Tests.Shared;

/// <summary>Eight phones on two servers with one database, on shared jobs, with the network cut now and then.</summary>
public class EightPhonesTests
{
    private const int Phones = 8;

    /// <summary>Two thousand in all at night, else a part of them.</summary>
    private static readonly int TapsEach = Effort.Cases(60, 250);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    [Trait("Needs", "PostgreSQL")]
    public async Task Taps_OnSharedJobsWithTheNetworkCut_AreEachKeptOnceAndSigned()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Postgres);
        await using ShopBench one = await ShopBench.StartAsync(test.Bench);
        await using ShopBench two = await ShopBench.StartAsync(test.Another(), folder: one.Folder);
        using HttpClient owner = await one.LetInAsync(DeviceRole.Mechanic, "Owner");
        Guid[] jobs = [await EnterTests.StartAsync(owner), await EnterTests.StartAsync(owner), await EnterTests.StartAsync(owner)];
        Dictionary<Guid, int> before = [];
        foreach (Guid job in jobs)
        {
            before[job] = (await FindAsync(test, job)).Sheet.Last;
        }

        ConcurrentDictionary<Guid, (Guid Job, string Person)> acknowledged = new();
        int cuts = 0, conflicts = 0;
        await Task.WhenAll(Enumerable.Range(0, Phones).Select(n => Task.Run(async () =>
        {
            string person = $"Person {n}";
            // A phone moves from one server to the other: its token is known to both.
            using HttpClient first = await one.LetInAsync(DeviceRole.Mechanic, person, $"phone {n}");
            using HttpClient second = Same(first, one, two);
            Random chance = new(7_100 + n);
            for (int tap = 0; tap < TapsEach; tap++)
            {
                Guid job = jobs[chance.Next(jobs.Length)];
                var action = Guid.NewGuid();
                // Every tenth says something that the others say too: the shim of one valve.
                bool isShared = tap % 10 == 9;
                int seen = isShared ? (await FindAsync(test, job)).Sheet.Last : 0;
                JsonObject body = new()
                {
                    ["action"] = action,
                    ["seen"] = seen,
                    ["facts"] = new JsonArray(isShared
                        ? new JsonObject { ["fact"] = "found", ["valve"] = "I1", ["thickness"] = Math.Round(2.5 + (chance.Next(10) * 0.05), 2), ["by"] = "marked" }
                        : new JsonObject { ["fact"] = "note", ["text"] = $"{person}, {tap}" }),
                };
                bool isDone = false;
                for (int attempt = 0; !isDone; attempt++)
                {
                    HttpClient server = chance.Next(2) == 0 ? first : second;
                    // The network is cut before the tap arrives, or after it was saved and before anybody hears of it.
                    bool isCut = attempt < 5 && chance.Next(12) == 0;
                    using CancellationTokenSource cut = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
                    if (isCut)
                    {
                        Interlocked.Increment(ref cuts);
                        cut.CancelAfter(TimeSpan.FromMilliseconds(chance.Next(30)));
                    }

                    try
                    {
                        using HttpResponseMessage answer = await server.PostAsJsonAsync(new Uri($"/api/v1/jobs/{job}/facts", UriKind.Relative), body, cut.Token);
                        string text = await answer.Content.ReadAsStringAsync(Cancel);
                        if (answer.StatusCode == HttpStatusCode.Conflict)
                        {
                            Assert.NotEmpty(JsonNode.Parse(text)!["unseen"]!.AsArray());
                            Interlocked.Increment(ref conflicts);
                            isDone = true;
                        }
                        else if (answer.StatusCode != HttpStatusCode.ServiceUnavailable)
                        {
                            Assert.True(answer.IsSuccessStatusCode, text);
                            acknowledged[action] = (job, person);
                            isDone = true;
                        }
                    }
                    catch (OperationCanceledException) when (!Cancel.IsCancellationRequested)
                    {
                        // Nobody knows whether it is saved: the same tap is sent again.
                    }
                }
            }
        }, Cancel)));

        int kept = 0;
        foreach (Guid job in jobs)
        {
            JobEntryOf[] entries = [.. (await FindAsync(test, job)).Sheet.Entries.Where(e => e.Number > before[job]).Select(e => new JobEntryOf(e.Action, DeviceSignature.PersonOf(e.Device)))];
            kept += entries.Length;
            Assert.Equal(entries.Length, entries.Select(e => e.Action).Distinct().Count());
            Assert.All(entries, e => Assert.Equal((job, e.Person), acknowledged[e.Action]));
        }

        Assert.Equal(acknowledged.Count, kept);
        Assert.Equal(Phones * TapsEach, acknowledged.Count + conflicts);
        Assert.True(cuts > 20, $"{cuts} cuts");
        Assert.True(conflicts > 0, "no conflict was ever shown");
        TestContext.Current.TestOutputHelper?.WriteLine($"{acknowledged.Count} kept, {conflicts} conflicts shown, {cuts} cuts");
    }

    /// <summary>A form that one server gave out is taken by the other.</summary>
    [Fact]
    [Trait("Needs", "PostgreSQL")]
    public async Task Keys_OfForms_AreThoseOfTheDatabase()
    {
        await using TestDatabase test = await TestDatabase.PreparedAsync(DatabaseKind.Postgres);
        await using ShopBench one = await ShopBench.StartAsync(test.Bench);
        await using ShopBench two = await ShopBench.StartAsync(test.Another(), folder: one.Folder);
        Microsoft.AspNetCore.DataProtection.IDataProtector mine = Protector(one), theirs = Protector(two);
        byte[] sealedByOne = mine.Protect([1, 2, 3]);
        Assert.Equal([1, 2, 3], theirs.Unprotect(sealedByOne));
    }

    private static Microsoft.AspNetCore.DataProtection.IDataProtector Protector(ShopBench shop) =>
        ((Microsoft.AspNetCore.DataProtection.IDataProtectionProvider)shop.App.Services.GetService(typeof(Microsoft.AspNetCore.DataProtection.IDataProtectionProvider))!).CreateProtector("a form");

    private static async Task<StoredJob> FindAsync(TestDatabase test, Guid job) => (await test.Bench.Jobs.FindAsync(job, Cancel))!;

    private static HttpClient Same(HttpClient first, ShopBench at, ShopBench other)
    {
        CookieContainer cookies = new();
        cookies.Add(other.Address, new Cookie($"__Host-shimwright-{other.Database.Id}", at.TokenOf(first)) { Secure = true });
        HttpClient second = other.NewClient(cookies);
        second.DefaultRequestHeaders.Add("X-Shimwright-Device", "the same");
        return second;
    }

    private sealed record JobEntryOf(Guid Action, string? Person);
}
