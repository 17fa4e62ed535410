using System.Net;
using System.Text.Json.Nodes;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Api;

/// <summary>Keeping in step, as a program without Shimwright's own code would: by the words of the guide alone.</summary>
public class StepApiTests
{
    private const string Pocket = "2f8f6a1e-7d1c-4c0e-9a64-0d7a2a9b9f01", Address = "/api/v1/sync";

    [Fact]
    public async Task Deeds_SentTwice_AreDoneOnceAndAnsweredAlikeAndCanBeFetched()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient http = bench.NewClient();
        var client = new ApiClient(http, "barn");
        Guid engine = Guid.NewGuid(), job = Guid.NewGuid(), note = Guid.NewGuid();
        JsonNode card = JsonNode.Parse(DemoEngine.File())!["engine"]!;
        JsonNode setup = JsonNode.Parse(DemoEngine.File())!;
        setup["check"]!["readings"] = new JsonArray();
        setup["check"]!.AsObject().Remove("fitted");
        setup.AsObject().Remove("recheck");
        JsonNode sent = Sent(
            "",
            new JsonObject { ["deed"] = "engine", ["id"] = $"{Guid.NewGuid()}", ["at"] = At(0), ["engine"] = $"{engine}", ["name"] = "Barn pump", ["card"] = card.DeepClone(), ["details"] = new JsonObject(), ["notes"] = "", ["owner"] = "", ["frame"] = "" },
            new JsonObject { ["deed"] = "start", ["id"] = $"{job}", ["at"] = At(1), ["engine"] = $"{engine}", ["setup"] = setup, ["past"] = new JsonObject { ["origin"] = "File", ["follows"] = null }, ["facts"] = new JsonArray() },
            new JsonObject { ["deed"] = "facts", ["id"] = $"{note}", ["at"] = At(2), ["job"] = $"{job}", ["seen"] = 0, ["facts"] = new JsonArray(new JsonObject { ["fact"] = "note", ["text"] = "in the barn" }) },
            new JsonObject { ["deed"] = "putIn", ["id"] = $"{Guid.NewGuid()}", ["at"] = At(3), ["shims"] = new JsonObject { ["size"] = new JsonObject { ["diameter"] = 9480, ["thickness"] = 2450, ["by"] = "marked" }, ["count"] = 2, ["place"] = null, ["price"] = null } });
        JsonNode first = (await client.PostAsync(Address, sent)).Is(HttpStatusCode.OK).Json;
        Assert.Equal(["Saved", "Saved", "Saved", "Saved"], first["answers"]!.AsArray().Select(a => (string)a!["outcome"]!));
        Assert.Equal("barn", (string)first["device"]!);
        sent["bench"] = (string)first["bench"]!;
        Assert.Equal(first["answers"]!.ToJsonString(), (await client.PostAsync(Address, sent)).Is(HttpStatusCode.OK).Json["answers"]!.ToJsonString());

        JsonNode changes = (await client.GetAsync(Address)).Is(HttpStatusCode.OK).Json;
        Assert.Equal((string)first["bench"]!, (string)changes["mark"]!["bench"]!);
        string[] keys = [.. changes["rows"]!.AsArray().Select(r => (string)r!["key"]!)];
        Assert.Contains($"engines/{engine}", keys);
        Assert.Contains($"jobs/{job}", keys);
        Assert.Single(keys, k => k.StartsWith($"facts/{job}/", StringComparison.Ordinal));
        Assert.Single(keys, k => k.StartsWith("ledger/", StringComparison.Ordinal));
        JsonNode mark = changes["mark"]!;
        string since = $"{Address}?bench={mark["bench"]}&last={mark["last"]}&ledger={mark["ledger"]}&settings={mark["settings"]}";
        JsonNode none = (await client.GetAsync(since)).Is(HttpStatusCode.OK).Json;
        Assert.DoesNotContain(none["rows"]!.AsArray(), r => ((string)r!["key"]!).StartsWith("facts/", StringComparison.Ordinal));

        // The bench's own page has it, with the time at which it was done: it was two hours ago by the sender's clock, whatever that one shows.
        JsonNode entry = (await client.GetAsync($"/api/v1/jobs/{job}")).Is(HttpStatusCode.OK).Json["entries"]![0]!;
        Assert.InRange(TimeProvider.System.GetUtcNow().UtcDateTime - entry["at"]!.GetValue<DateTime>().ToUniversalTime(), TimeSpan.FromMinutes(117), TimeSpan.FromMinutes(120));
    }

    [Fact]
    public async Task Deeds_ThatAreWrong_AreRefusedOneByOneAndTheRestIsDone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient http = bench.NewClient();
        var client = new ApiClient(http);
        Guid engine = await DemoEngine.AddAsync(bench);
        JsonObject start = new() { ["action"] = Guid.NewGuid().ToString(), ["engine"] = engine.ToString(), ["clock"] = 118.5 };
        string job = (string)(await client.PostAsync("/api/v1/jobs", start)).Is(HttpStatusCode.Created).Json["job"]!["id"]!;
        JsonNode answer = (await client.PostAsync(Address, Sent(
            "",
            new JsonObject { ["deed"] = "facts", ["id"] = $"{Guid.NewGuid()}", ["at"] = At(0), ["job"] = $"{job}", ["seen"] = -5, ["facts"] = new JsonArray(new JsonObject { ["fact"] = "unheard of" }) },
            new JsonObject { ["deed"] = "facts", ["id"] = $"{Guid.NewGuid()}", ["at"] = At(0), ["job"] = $"{Guid.NewGuid()}", ["seen"] = 0, ["facts"] = new JsonArray() },
            new JsonObject { ["deed"] = "settings", ["id"] = $"{Guid.NewGuid()}", ["at"] = At(0), ["seen"] = 0, ["own"] = 0, ["settings"] = new JsonObject { ["risk"] = 7 } },
            new JsonObject { ["deed"] = "start", ["id"] = $"{Guid.NewGuid()}", ["at"] = At(0), ["engine"] = $"{Guid.NewGuid()}", ["setup"] = new JsonObject(), ["past"] = new JsonObject { ["origin"] = "File", ["follows"] = null }, ["facts"] = new JsonArray() },
            new JsonObject { ["deed"] = "facts", ["id"] = $"{Guid.NewGuid()}", ["at"] = "9999-12-31T23:59:59Z", ["job"] = $"{job}", ["seen"] = 0, ["facts"] = new JsonArray(new JsonObject { ["fact"] = "note", ["text"] = "right" }) })))
            .Is(HttpStatusCode.OK).Json;
        Assert.Equal(["Refused", "Refused", "Refused", "Refused", "Saved"], answer["answers"]!.AsArray().Select(a => (string)a!["outcome"]!));
        Assert.All(answer["answers"]!.AsArray().Take(4), a => Assert.NotEmpty(a!["problems"]!.AsArray()));
    }

    [Fact]
    public async Task Messages_ThatAreNone_AreRefusedAndNothingIsDone()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient http = bench.NewClient();
        var client = new ApiClient(http);
        (await client.PostAsync(Address, "{}")).IsProblem(HttpStatusCode.UnprocessableEntity);
        (await client.PostAsync(Address, "not JSON")).IsProblem(HttpStatusCode.UnprocessableEntity);
        (await client.PostAsync(Address, Sent("").ToJsonString(), "text/plain")).IsProblem(HttpStatusCode.UnsupportedMediaType);
        (await new ApiClient(http, device: null).PostAsync(Address, Sent(""))).IsProblem(HttpStatusCode.BadRequest);
        (await client.GetAsync($"{Address}/pictures/{Guid.NewGuid()}")).IsProblem(HttpStatusCode.NotFound);
        (await client.GetAsync($"{Address}?last=-1&ledger=x")).Is(HttpStatusCode.OK);
        JsonNode other = (await client.PostAsync(Address, Sent("another bench", new JsonObject { ["deed"] = "putIn", ["id"] = $"{Guid.NewGuid()}", ["at"] = At(0), ["shims"] = new JsonObject { ["size"] = new JsonObject { ["diameter"] = 9480, ["thickness"] = 2450, ["by"] = "marked" }, ["count"] = 2, ["place"] = null, ["price"] = null } }))).Is(HttpStatusCode.OK).Json;
        Assert.Empty(other["answers"]!.AsArray());
        Assert.Empty(await bench.Database.Drawer.LotsAsync(TestContext.Current.CancellationToken));
    }

    private static JsonObject Sent(string bench, params JsonNode[] deeds) =>
        new() { ["pocket"] = Pocket, ["now"] = "2001-01-01T12:00:00Z", ["bench"] = bench, ["deeds"] = new JsonArray(deeds) };

    /// <summary>Two hours ago by a clock that is years slow, and some minutes.</summary>
    private static string At(int minute) => $"2001-01-01T10:{minute:00}:00Z";
}
