using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Shimwright.Bench;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Web.Visitors;
using Denied = Microsoft.AspNetCore.Http.HttpResults.Results<Shimwright.Web.Api.Refused<Shimwright.Web.Api.NotThere>, Shimwright.Web.Api.Refused<Shimwright.Web.Api.NotForYou>>;

namespace Shimwright.Web.Api;

/// <summary>Adding to a job's sheet.</summary>
internal static class FactsApi
{
    public static void Map(RouteGroupBuilder api) =>
        api.MapPost("/jobs/{id:guid}/facts", AddAsync).WithTags("Jobs").WithName("addFacts").WithSummary("Add facts to a job, all or none.")
            .WithDescription("Members: action (a UUID; the same sent twice counts once), seen (the number of the last entry this device has seen), facts (each with its kind in the member fact, as GET of the job shows them). "
                + "409 lists what was added in between and has to be seen first.")
            .WithMetadata(new Writes(), new TakesBody("NewFacts", "action, seen, facts"));

    private static async Task<Results<Ok<FactsSaved>, Refused<BadJson>, Denied, Refused<Conflict>, Refused<WrongKind>, Refused<Wrong>>> AddAsync(
        Guid id, HttpRequest request, IBench bench, CancellationToken cancel)
    {
        if (!JsonBody.IsJson(request))
        {
            return new Refused<WrongKind>();
        }

        List<JobProblem> problems = [];
        if (JsonBody.Object(await JsonBody.ReadAsync(request, cancel), problems) is not { } body)
        {
            return new Refused<BadJson>(problems);
        }

        JsonBody.NoteUnknown(body, problems, "action", "seen", "facts");
        Guid? action = JsonBody.Id(body, "action", problems, "make one for these facts; the same sent twice counts once");
        int seen = (int)Math.Clamp(JsonBody.Number(body, "seen", problems) ?? 0, 0, int.MaxValue);
        IReadOnlyList<JobFact> facts = Facts(body["facts"], problems);
        if (problems.Count > 0)
        {
            return new Refused<Wrong>(problems);
        }

        bool asksForOwner = Visitor.RoleOf(request.HttpContext.User) != DeviceRole.Owner && facts.Any(OwnerFacts.MayBe);
        StoredJob? kept = seen > 0 || asksForOwner ? await bench.Jobs.FindAsync(id, cancel) : null;
        if (asksForOwner && kept is not null && facts.Any(f => OwnerFacts.Has(kept.Sheet, f)))
        {
            return (Denied)new Refused<NotForYou>(new JobProblem("$.facts", "found a job that is to be discarded or put back", "only an owner's device may do that"));
        }

        if (kept is not null && seen > kept.Sheet.Last)
        {
            return new Refused<Wrong>(new JobProblem("$.seen", FormattableString.Invariant($"found {seen}"), FormattableString.Invariant($"allowed is 0 to {kept.Sheet.Last}, the member last of the job")));
        }

        AddResult result = await bench.Jobs.AddAsync(id, new Addition(action!.Value, DeviceHeader.Of(request), seen, facts), cancel);
        return result.Outcome switch
        {
            AddOutcome.NoSuchJob => (Denied)new Refused<NotThere>(),
            AddOutcome.Refused => new Refused<Wrong>(result.Problems),
            AddOutcome.Reused => new Refused<Conflict>([.. result.Problems.Select(p => p with { Path = "$.action" })]) { Title = "This action was sent before with different content; nothing was saved." },
            AddOutcome.Conflict => new Refused<Conflict> { Unseen = [.. result.Unseen.Select(e => EntryRow.Of(e, inForce: true))] },
            _ when await bench.Jobs.FindAsync(id, cancel) is { } job =>
                TypedResults.Ok(new FactsSaved(result.Outcome == AddOutcome.SavedBefore, job.Sheet.Last, job.Summary.Stage.ToString().ToLowerInvariant())),
            _ => (Denied)new Refused<NotThere>(),
        };
    }

    private static List<JobFact> Facts(JsonNode? node, List<JobProblem> problems)
    {
        if (node is not JsonArray { Count: > 0 } array)
        {
            problems.Add(new("$.facts", node is null ? "missing" : "found something else", "a list of at least one fact"));
            return [];
        }

        List<JobFact> facts = [];
        foreach ((int index, JsonNode? item) in array.Index().TakeWhile(_ => !FirstProblems.AreEnough(problems)))
        {
            if (HoldsNull(item))
            {
                problems.Add(new($"$.facts[{index}]", "found a null in a list", "leave it out"));
                continue;
            }

            try
            {
                facts.Add(FactJson.Read(item?.ToJsonString() ?? "null"));
            }
            catch (Exception wrong) when (wrong is JsonException or NotSupportedException or InvalidOperationException)
            {
                problems.Add(new($"$.facts[{index}]", FirstLine(wrong.Message), "write it as GET of the job shows facts of its kind"));
            }
        }

        return facts;
    }

    private static bool HoldsNull(JsonNode? node) => node switch
    {
        JsonArray array => array.Any(i => i is null || HoldsNull(i)),
        JsonObject members => members.Any(m => m.Value is not null && HoldsNull(m.Value)),
        _ => false,
    };

    /// <summary>The reader's own account, without the names of the program's types.</summary>
    private static string FirstLine(string message) =>
        message.Contains("missing required properties", StringComparison.Ordinal) && message.Split(':', 2) is [_, var missing]
            ? "missing: " + missing.Split(". Path", 2)[0].Trim().TrimEnd('.')
            : "this is no fact that can be read";
}
