using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Shimwright.Bench.Engines;
using Shimwright.Jobs.Cards;
using Shimwright.Jobs.Members;

namespace Shimwright.Web.Api;

/// <summary>An engine as it is sent.</summary>
/// <param name="Card">The card; null where there are problems.</param>
/// <param name="Details">What a job file has no place for.</param>
/// <param name="Notes">Notes on the engine.</param>
/// <param name="Papers">Owner and frame number; null where neither was sent.</param>
internal sealed record EngineBody(EngineCard? Card, CardDetails Details, string Notes, EnginePapers? Papers)
{
    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        NumberHandling = JsonNumberHandling.Strict,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
    };

    public static EngineBody Read(JsonObject body, List<JobProblem> problems)
    {
        EngineCard? card = null;
        if (body["card"] is JsonObject json)
        {
            ParsedCard reading = EngineCard.Read(json);
            card = reading.Card;
            problems.AddRange(reading.Problems.Select(p => p with { Path = "$.card" + p.Path[1..] }));
        }
        else
        {
            problems.Add(new("$.card", body["card"] is null ? "missing" : "found something else", "an engine card { } belongs here: the member \"engine\" of a job file"));
        }

        CardDetails details = ReadDetails(body, problems);
        if (card is not null)
        {
            problems.AddRange(DetailRules.ProblemsOf(details, card.Engine.AccessGroups).Select(p => p with { Path = $"$.details.{p.Path}" }));
        }

        EnginePapers papers = new(TextOf(body, "owner", problems).Trim(), TextOf(body, "frame", problems).Trim());
        if (!papers.CanBeKept)
        {
            problems.Add(new("$.owner, $.frame", "found more than one line, or a long text", FormattableString.Invariant($"allowed is one line of {EnginePapers.Longest} characters each")));
        }

        return new(card, details, TextOf(body, "notes", problems), body["owner"] is null && body["frame"] is null ? null : papers);
    }

    private static string TextOf(JsonObject body, string member, List<JobProblem> problems)
    {
        if (body[member] is { } found && JsonBody.Text(body, member) is null)
        {
            problems.Add(new($"$.{member}", $"found {found.GetValueKind()}", "a text belongs here"));
        }

        return JsonBody.Text(body, member) ?? "";
    }

    private static CardDetails ReadDetails(JsonObject body, List<JobProblem> problems)
    {
        try
        {
            return body["details"]?.Deserialize<CardDetails>(Strict) ?? new();
        }
        catch (JsonException wrong)
        {
            problems.Add(new($"$.details{wrong.Path?[1..]}", "found something else", "known here: shimDiameter, thinnestShim, thickestShim (mm), accessMinutes, limitsFrom, notes"));
            return new();
        }
    }
}
