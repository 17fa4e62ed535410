using System.Net;
using System.Text;
using Shimwright.Jobs;
using Shimwright.Jobs.Results;
using Shimwright.Web.Tests.Pages;

namespace Shimwright.Web.Tests.Api;

public class ComputeApiTests
{
    [Theory]
    [InlineData("estimate", "01-flood-pump.json")]
    [InlineData("plan", "01-flood-pump.json")]
    [InlineData("plan", "07-stranded-valve.json")]
    [InlineData("verdict", "01-flood-pump.json")]
    [InlineData("stops", "06-plant-engine-screws.json")]
    [InlineData("forecast", "02-worn-four.json")]
    public async Task Post_AJobFile_IsAnsweredWordForWordAsTheCommandDoes(string command, string file)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        byte[] job = DemoEngine.File(file);
        ApiAnswer answer = await new ApiClient(client, device: null).PostAsync($"/api/v1/{command}", Encoding.UTF8.GetString(job));
        Assert.Equal("application/json", answer.Is(HttpStatusCode.OK).Kind);
        Assert.Equal(Expected(command, job), answer.Body);
    }

    [Fact]
    public async Task Post_AJobWithThingsWrong_ListsAllOfThem()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        const string Bad = """{"format": "shimwright-job/1", "engine": {"name": "n", "valvetrain": "screw", "valves": []}, "check": {"clock": -1, "readings": [], "odd": 1}}""";
        ApiAnswer answer = await new ApiClient(client).PostAsync("/api/v1/estimate", Bad);
        IReadOnlyList<string> paths = answer.IsProblem(HttpStatusCode.UnprocessableEntity).Paths;
        Assert.Equal(JobFile.Read(Encoding.UTF8.GetBytes(Bad), JobPurpose.Estimate).Problems.Select(p => p.Path), paths);
        Assert.True(paths.Count >= 4, answer.Body);
        Assert.All(answer.Json["errors"]!.AsArray(), e => Assert.NotEmpty((string)e!["allowed"]!));
    }

    [Fact]
    public async Task Post_MoreThingsWrongThanAnybodyReads_ListsTwoHundred()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        string bad = "{" + string.Join(',', Enumerable.Range(0, 5000).Select(i => $"\"odd{i}\": 1")) + "}";
        ApiAnswer answer = await new ApiClient(client).PostAsync("/api/v1/estimate", bad);
        Assert.Equal(201, answer.IsProblem(HttpStatusCode.UnprocessableEntity).Paths.Count);
        Assert.Equal("and more", (string)answer.Json["errors"]![200]!["found"]!);
        answer = await new ApiClient(client).PostAsync("/api/v1/jobs", bad);
        Assert.Equal(201, answer.IsProblem(HttpStatusCode.UnprocessableEntity).Paths.Count);
    }

    [Fact]
    public async Task Post_NoJson_SaysWhere()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        ApiAnswer answer = await new ApiClient(client).PostAsync("/api/v1/plan", "{\n  \"format\": shimwright }");
        Assert.Contains("line 2, column 13", (string)answer.IsProblem(HttpStatusCode.BadRequest).Json["errors"]![0]!["found"]!, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/x-www-form-urlencoded")]
    public async Task Post_AnotherKindOfBody_IsRefused(string kind)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (await new ApiClient(client).PostAsync("/api/v1/plan", "{}", kind)).IsProblem(HttpStatusCode.UnsupportedMediaType);
    }

    [Theory]
    [InlineData("PUT", "/api/v1/plan", HttpStatusCode.MethodNotAllowed)]
    [InlineData("GET", "/api/v1/nothing", HttpStatusCode.NotFound)]
    [InlineData("DELETE", "/api/v1/engines", HttpStatusCode.MethodNotAllowed)]
    public async Task Send_WhatIsNotThere_IsAProblem(string method, string path, HttpStatusCode status)
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        (await new ApiClient(client).SendAsync(new HttpMethod(method), path, null)).IsProblem(status);
    }

    [Fact]
    public async Task Schema_OfTheJobFile_IsTheCommands()
    {
        await using RunningBench bench = await RunningBench.StartAsync();
        using HttpClient client = bench.NewClient();
        Assert.Equal(JobFile.Schema(), (await new ApiClient(client).GetAsync("/api/v1/schema")).Body);
    }

    private static string Expected(string command, byte[] file)
    {
        Job Read(JobPurpose purpose) => JobFile.Read(file, purpose).Job!;
        return command switch
        {
            "estimate" => ResultJson.Write(EstimateResult.Of(Read(JobPurpose.Estimate)), indented: false),
            "plan" => ResultJson.Write(PlanResult.WithFirst(Read(JobPurpose.Plan)), indented: false),
            "verdict" => ResultJson.Write(VerdictResult.Of(Read(JobPurpose.Verdict)), indented: false),
            "stops" => ResultJson.Write(StopsResult.Of(Read(JobPurpose.Stops)), indented: false),
            _ => ResultJson.Write(ForecastResult.Of(Read(JobPurpose.Forecast)), indented: false),
        };
    }
}
