using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Shimwright.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Api;

public class JobApiTests
{
    [Fact]
    public async Task Post_AnEngineAndAClock_StartsOneJobForAnAction()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        var api = new ApiClient(client);
        Guid engine = await DemoEngine.AddAsync(bench);
        JsonObject start = new() { ["action"] = Guid.NewGuid().ToString(), ["engine"] = engine.ToString(), ["clock"] = 118.5 };
        ApiAnswer one = (await api.PostAsync("/api/v1/jobs", start)).Is(HttpStatusCode.Created);
        ApiAnswer two = (await api.PostAsync("/api/v1/jobs", start)).Is(HttpStatusCode.Created);
        Assert.Equal(one.Location, two.Location);
        JsonNode list = (await api.GetAsync("/api/v1/jobs")).Json;
        Assert.Equal("measure", (string)Assert.Single(list["jobs"]!.AsArray())!["stage"]!);
        Assert.Empty((await api.GetAsync("/api/v1/jobs?open=false")).Json["jobs"]!.AsArray());
    }

    [Fact]
    public async Task Post_AStartWithThingsWrong_NamesAllOfThem()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        var api = new ApiClient(client);
        ApiAnswer answer = (await api.PostAsync("/api/v1/jobs", """{"action": "x", "clock": "noon", "temperatureC": [], "odd": 1}""")).IsProblem(HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["$.action", "$.clock", "$.engine", "$.odd", "$.temperatureC"], answer.Paths.Order(StringComparer.Ordinal));
        Guid engine = await DemoEngine.AddAsync(bench);
        JsonObject start = new() { ["action"] = Guid.NewGuid().ToString(), ["engine"] = engine.ToString(), ["clock"] = -5 };
        Assert.Equal(["$.clock"], (await api.PostAsync("/api/v1/jobs", start)).IsProblem(HttpStatusCode.UnprocessableEntity).Paths);
        start["engine"] = Guid.NewGuid().ToString();
        (await api.PostAsync("/api/v1/jobs", start)).IsProblem(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Post_AJobFile_BecomesAnEngineAndAJobWithItsFacts()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        var api = new ApiClient(client);
        string file = Encoding.UTF8.GetString(DemoEngine.File());
        string path = $"/api/v1/jobs/file?action={Guid.NewGuid()}";
        ApiAnswer one = (await api.PostAsync(path, file)).Is(HttpStatusCode.Created);
        ApiAnswer two = (await api.PostAsync(path, file)).Is(HttpStatusCode.Created);
        Assert.Equal(one.Location, two.Location);
        Assert.Equal(1, await bench.Database.Engines.CountAsync("", TestContext.Current.CancellationToken));

        // The figures of the job are those of the file, and of the file that the job gives out.
        ApiAnswer plan = (await api.GetAsync($"{one.Location}/plan")).Is(HttpStatusCode.OK);
        Assert.Equal(ResultJson.Write(PlanResult.WithFirst(JobFile.Read(DemoEngine.File(), JobPurpose.Plan).Job!), indented: false), plan.Body);
        string given = (await api.GetAsync($"{one.Location}/file")).Is(HttpStatusCode.OK).Body;
        Assert.Equal(plan.Body, (await api.PostAsync("/api/v1/plan", given)).Body);
        (await api.GetAsync($"{one.Location}/estimate")).Is(HttpStatusCode.OK);
        (await api.GetAsync($"{one.Location}/verdict")).Is(HttpStatusCode.OK);
        (await api.GetAsync($"{one.Location}/record")).IsProblem(HttpStatusCode.NotFound);
    }

    [Theory]
    [InlineData("/api/v1/jobs/file", HttpStatusCode.UnprocessableEntity)]
    [InlineData("/api/v1/jobs/file?action=x&engine=y", HttpStatusCode.UnprocessableEntity)]
    [InlineData("/api/v1/jobs/file?action=018f0000-0000-7000-8000-000000000001&engine=018f0000-0000-7000-8000-000000000002", HttpStatusCode.NotFound)]
    public async Task Post_AJobFileForNothing_IsRefused(string path, HttpStatusCode status)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (await new ApiClient(client).PostAsync(path, Encoding.UTF8.GetString(DemoEngine.File()))).IsProblem(status);
        Assert.Equal(0, await bench.Database.Jobs.CountOpenAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Post_Facts_AreSavedOnceAndConflictsShowWhatWasNotSeen()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        var tablet = new ApiClient(client, "tablet");
        var phone = new ApiClient(client, "phone");
        int last = (int)(await tablet.GetAsync($"/api/v1/jobs/{job}")).Json["last"]!;

        JsonObject mine = Facts(last, new LossSuspected("dust"));
        JsonNode saved = (await tablet.PostAsync($"/api/v1/jobs/{job}/facts", mine)).Is(HttpStatusCode.OK).Json;
        Assert.False((bool)saved["before"]!);
        Assert.Equal(last + 1, (int)saved["last"]!);
        Assert.True((bool)(await tablet.PostAsync($"/api/v1/jobs/{job}/facts", mine)).Is(HttpStatusCode.OK).Json["before"]!);

        ApiAnswer conflict = (await phone.PostAsync($"/api/v1/jobs/{job}/facts", Facts(last, new LossSuspected("ordinary")))).IsProblem(HttpStatusCode.Conflict);
        JsonNode unseen = Assert.Single(conflict.Json["unseen"]!.AsArray())!;
        Assert.Equal(("tablet", "dust"), ((string)unseen["device"]!, (string)unseen["fact"]!["cause"]!));
        (await phone.PostAsync($"/api/v1/jobs/{job}/facts", Facts(last + 1, new LossSuspected("ordinary")))).Is(HttpStatusCode.OK);

        JsonObject other = Facts(last + 2, new LossSuspected("ordinary"));
        other["action"] = (string)mine["action"]!;
        ApiAnswer reused = (await tablet.PostAsync($"/api/v1/jobs/{job}/facts", other)).IsProblem(HttpStatusCode.Conflict);
        Assert.Contains("different content", (string)reused.Json["errors"]![0]!["found"]!, StringComparison.Ordinal);
    }

    /// <summary>Who said that they had seen everything, whatever was to come, was never asked about a conflict.</summary>
    [Fact]
    public async Task Post_FactsBySomebodyWhoHasSeenMoreThanThereIs_AreRefused()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        var api = new ApiClient(client);
        int last = (int)(await api.GetAsync($"/api/v1/jobs/{job}")).Json["last"]!;
        ApiAnswer answer = (await api.PostAsync($"/api/v1/jobs/{job}/facts", Facts(1_000_000_000, new LossSuspected("dust")))).IsProblem(HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["$.seen"], answer.Paths);
        Assert.Contains($"0 to {last}", (string)answer.Json["errors"]![0]!["allowed"]!, StringComparison.Ordinal);
        (await api.PostAsync($"/api/v1/jobs/{job}/facts", Facts(last, new LossSuspected("dust")))).Is(HttpStatusCode.OK);
    }

    [Fact]
    public async Task Post_FactsThatAreWrong_AreRefusedWhole()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        var api = new ApiClient(client);
        JsonObject body = Facts(0, new LossSuspected("dust"), new ThicknessFound("X9", 2.5, "marked"));
        (await api.PostAsync($"/api/v1/jobs/{job}/facts", body)).IsProblem(HttpStatusCode.UnprocessableEntity);
        Assert.Null((await bench.Database.Jobs.FindAsync(job, TestContext.Current.CancellationToken))!.Sheet.Suspected);
        (await api.PostAsync($"/api/v1/jobs/{Guid.NewGuid()}/facts", Facts(0, new LossSuspected("dust")))).IsProblem(HttpStatusCode.NotFound);
    }

    [Theory]
    [InlineData("""{"fact": "blade"}""", "missing")]
    [InlineData("""{"fact": "hunch"}""", "no fact")]
    [InlineData("""{"valve": "I1"}""", "no fact")]
    [InlineData("5", "no fact")]
    [InlineData("null", "no fact")]
    [InlineData("""{"fact": "stock", "drawer": [null], "buy": []}""", "null")]
    [InlineData("""{"fact": "blade", "part": "Check", "valve": "I1", "blade": "x", "leaves": 1, "feel": "light"}""", "no fact")]
    public async Task Post_WhatIsNoFact_SaysSo(string fact, string found)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        ApiAnswer answer = (await new ApiClient(client).PostAsync($"/api/v1/jobs/{job}/facts", $$"""{"action": "{{Guid.NewGuid()}}", "seen": 99, "facts": [{{fact}}]}"""))
            .IsProblem(HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["$.facts[0]"], answer.Paths);
        Assert.Contains(found, (string)answer.Json["errors"]![0]!["found"]!, StringComparison.Ordinal);
        Assert.DoesNotContain("System.", answer.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_WhatTheJobIsNotReadyFor_SaysWhatIsMissing()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Guid engine = await DemoEngine.AddAsync(bench);
        Guid job = await bench.Database.Jobs.StartAsync(engine, DemoEngine.Setup().Setup!, [], Guid.NewGuid(), "test", TestContext.Current.CancellationToken);
        var api = new ApiClient(client);
        Assert.NotEmpty((await api.GetAsync($"/api/v1/jobs/{job}/plan")).IsProblem(HttpStatusCode.UnprocessableEntity).Paths);
        (await api.GetAsync($"/api/v1/jobs/{Guid.NewGuid()}/plan")).IsProblem(HttpStatusCode.NotFound);
        (await api.GetAsync("/api/v1/jobs/nine/plan")).IsProblem(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Get_TheRecordOfAClosedJob_IsThere()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (_, Guid job) = await DemoEngine.AddWithJobAsync(bench);
        var api = new ApiClient(client);
        (await api.PostAsync($"/api/v1/jobs/{job}/facts", Facts((int)(await api.GetAsync($"/api/v1/jobs/{job}")).Json["last"]!, new JobClosed(200, "Tight intake", "", "")))).Is(HttpStatusCode.OK);
        Assert.Equal("Tight intake", (string)(await api.GetAsync($"/api/v1/jobs/{job}/record")).Is(HttpStatusCode.OK).Json["found"]!);
        Assert.Equal("closed", (string)(await api.GetAsync("/api/v1/jobs?open=false")).Json["jobs"]![0]!["stage"]!);
    }

    private static JsonObject Facts(int seen, params JobFact[] facts) => new()
    {
        ["action"] = Guid.NewGuid().ToString(),
        ["seen"] = seen,
        ["facts"] = new JsonArray([.. facts.Select(f => JsonNode.Parse(FactJson.Write(f)))]),
    };
}
