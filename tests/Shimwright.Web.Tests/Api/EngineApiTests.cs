using System.Net;
using System.Text.Json.Nodes;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Api;

public class EngineApiTests
{
    [Fact]
    public async Task Post_ACard_AddsAnEngineOnceForItsId()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        var api = new ApiClient(client);
        JsonObject body = NewEngine();
        body["id"] = Guid.NewGuid().ToString();
        body["details"] = new JsonObject { ["shimDiameter"] = 7.48, ["accessMinutes"] = new JsonObject { ["intake cam"] = 20 }, ["limitsFrom"] = "Manual" };
        ApiAnswer added = (await api.PostAsync("/api/v1/engines", body)).Is(HttpStatusCode.Created);
        (await api.PostAsync("/api/v1/engines", body)).Is(HttpStatusCode.Created);
        Assert.Equal(1, await bench.Database.Engines.CountAsync("", TestContext.Current.CancellationToken));
        ApiAnswer got = (await api.GetAsync(added.Location!.ToString())).Is(HttpStatusCode.OK);
        Assert.Equal("\"1.1\"", got.Tag);
        Assert.Equal(7.48, (double)got.Json["details"]!["shimDiameter"]!);
        Assert.Equal("shim-under-bucket", (string)got.Json["card"]!["valvetrain"]!);
    }

    [Fact]
    public async Task Put_Retired_TakesTheEngineOutOfTheListAndBack()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        var api = new ApiClient(client);
        string engine = (await api.PostAsync("/api/v1/engines", NewEngine())).Is(HttpStatusCode.Created).Location!.ToString();
        foreach (bool retired in new[] { true, true, false })
        {
            ApiAnswer answer = (await api.PutAsync($"{engine}/retired", new JsonObject { ["retired"] = retired }, null)).Is(HttpStatusCode.OK);
            Assert.Equal(retired, answer.Json["retiredAt"] is not null);
            Assert.Equal(retired ? 0 : 1, (int)(await api.GetAsync("/api/v1/engines")).Json["count"]!);
            Assert.Equal(retired ? 1 : 0, (int)(await api.GetAsync("/api/v1/engines?retired=true")).Json["count"]!);
        }

        Assert.Equal(["$.retired"], (await api.PutAsync($"{engine}/retired", new JsonObject { ["retired"] = 1 }, null)).IsProblem(HttpStatusCode.UnprocessableEntity).Paths);
        (await api.PutAsync($"/api/v1/engines/{Guid.NewGuid()}/retired", new JsonObject { ["retired"] = true }, null)).IsProblem(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Post_ThingsWrong_AreAllNamedUnderTheirPaths()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        JsonObject body = NewEngine();
        body["card"]!["ratio"] = 99;
        body["card"]!["valves"]![0]!["cylinder"] = 0;
        body["details"] = new JsonObject { ["shimDiameter"] = -1, ["accessMinutes"] = new JsonObject { ["nothing"] = 5 } };
        body["notes"] = 5;
        body["extra"] = true;
        ApiAnswer answer = (await new ApiClient(client).PostAsync("/api/v1/engines", body)).IsProblem(HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["$.card.ratio", "$.card.valves[0].cylinder", "$.extra", "$.notes"], answer.Paths.Order(StringComparer.Ordinal));
        body = NewEngine();
        body["details"] = new JsonObject { ["shimDiameter"] = -1, ["accessMinutes"] = new JsonObject { ["nothing"] = 5 } };
        answer = (await new ApiClient(client).PostAsync("/api/v1/engines", body)).IsProblem(HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["$.details.accessMinutes.nothing", "$.details.shimDiameter"], answer.Paths.Order(StringComparer.Ordinal));
        Assert.Equal(0, await bench.Database.Engines.CountAsync("", TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("""{"card": null}""", "$.card")]
    [InlineData("""{"card": 5}""", "$.card")]
    [InlineData("""{}""", "$.card")]
    public async Task Post_NoCard_SaysWhatBelongsThere(string body, string path)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Assert.Equal([path], (await new ApiClient(client).PostAsync("/api/v1/engines", body)).IsProblem(HttpStatusCode.UnprocessableEntity).Paths);
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("{\"card\":")]
    [InlineData("{\"card\":{},\"card\":{}}")]
    [InlineData("")]
    public async Task Post_NoObject_IsRefused(string body)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (await new ApiClient(client).PostAsync("/api/v1/engines", body)).IsProblem(HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task Put_WithTheVersionThatWasSeen_ChangesAndAnOldOneDoesNot()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        var api = new ApiClient(client);
        Guid id = await DemoEngine.AddAsync(bench);
        JsonObject body = NewEngine();
        body["card"]!["name"] = "Loaner no. 9";
        (await api.PutAsync($"/api/v1/engines/{id}", body, null)).IsProblem((HttpStatusCode)428);
        (await api.PutAsync($"/api/v1/engines/{id}", body, "\"x\"")).IsProblem((HttpStatusCode)428);
        ApiAnswer changed = (await api.PutAsync($"/api/v1/engines/{id}", body, "\"1.1\"")).Is(HttpStatusCode.OK);
        Assert.Equal("\"2.2\"", changed.Tag);
        (await api.PutAsync($"/api/v1/engines/{id}", body, "\"1.1\"")).IsProblem(HttpStatusCode.PreconditionFailed);
        ApiAnswer again = (await api.PutAsync($"/api/v1/engines/{id}", body, changed.Tag)).Is(HttpStatusCode.OK);
        Assert.Equal("\"3.3\"", again.Tag);
        Assert.Equal(again.Tag, (await api.GetAsync($"/api/v1/engines/{id}")).Is(HttpStatusCode.OK).Tag);
        (await api.PutAsync($"/api/v1/engines/{Guid.NewGuid()}", body, "\"1.1\"")).IsProblem(HttpStatusCode.NotFound);
        Assert.Equal("Loaner no. 9", (await bench.Database.Engines.FindAsync(id, TestContext.Current.CancellationToken))!.Name);
    }

    [Theory]
    [InlineData(null)]
    [InlineData(" ")]
    public async Task Post_WithoutADevice_SavesNothing(string? device)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        ApiAnswer answer = (await new ApiClient(client, device).PostAsync("/api/v1/engines", NewEngine())).IsProblem(HttpStatusCode.BadRequest);
        Assert.Equal(["header X-Shimwright-Device"], answer.Paths);
        Assert.Equal(0, await bench.Database.Engines.CountAsync("", TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Get_TheList_IsSearchedByName()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        await DemoEngine.AddAsync(bench, "02-worn-four.json");
        await DemoEngine.AddAsync(bench, "06-plant-engine-screws.json");
        JsonNode list = (await new ApiClient(client).GetAsync("/api/v1/engines?q=GENERATOR")).Is(HttpStatusCode.OK).Json;
        Assert.Equal(1, (int)list["count"]!);
        Assert.Equal("The yard generator", (string)list["engines"]![0]!["name"]!);
        (await new ApiClient(client).GetAsync($"/api/v1/engines/{Guid.NewGuid()}")).IsProblem(HttpStatusCode.NotFound);
    }

    private static JsonObject NewEngine() => new() { ["card"] = JsonNode.Parse(DemoEngine.Setup().Setup!.Card.Json) };
}
