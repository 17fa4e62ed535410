using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Http;
using Shimwright.Jobs.Bounds;
using Shimwright.Jobs.Members;

namespace Shimwright.Web.Api;

/// <summary>The body of a request as it was sent, or what is the matter with it.</summary>
internal static class JsonBody
{
    /// <summary>Whether the body says that it is JSON. A form of another site cannot say so without asking first.</summary>
    public static bool IsJson(HttpRequest request) => request.HasJsonContentType();

    public static async Task<byte[]> ReadAsync(HttpRequest request, CancellationToken cancel)
    {
        using var body = new MemoryStream();
        await request.Body.CopyToAsync(body, cancel);
        return body.ToArray();
    }

    /// <summary>Whether bytes are JSON at all, right or wrong.</summary>
    public static bool CanBeRead(byte[] body)
    {
        try
        {
            using var document = JsonDocument.Parse(WithoutMark(body));
            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    /// <summary>The body as an object; null with a problem noted where it is none.</summary>
    public static JsonObject? Object(byte[] body, List<JobProblem> problems)
    {
        try
        {
            if (JsonNode.Parse(WithoutMark(body).Span, documentOptions: new JsonDocumentOptions { AllowDuplicateProperties = false }) is JsonObject found)
            {
                return found;
            }

            problems.Add(new("$", "found something else", "an object { } belongs here"));
        }
        catch (JsonException wrong)
        {
            long line = (wrong.LineNumber ?? 0) + 1;
            long column = (wrong.BytePositionInLine ?? 0) + 1;
            problems.Add(new("$", $"not JSON: line {line}, byte {column}", "send one JSON object"));
        }

        return null;
    }

    /// <summary>A member as text that can be read again; null where it is missing or null.</summary>
    public static string? Text(JsonObject body, string name) => body[name] is JsonValue value && value.TryGetValue(out string? text) ? text : null;

    /// <summary>An id in a member, or null with a problem noted.</summary>
    public static Guid? Id(JsonObject body, string name, List<JobProblem> problems, string whatFor)
    {
        if (Guid.TryParse(Text(body, name), out Guid id) && id != Guid.Empty)
        {
            return id;
        }

        problems.Add(new($"$.{name}", body[name] is null ? "missing" : $"found {Show(body[name])}", $"a UUID is needed: {whatFor}"));
        return null;
    }

    /// <summary>A number in a member, or null with a problem noted.</summary>
    public static double? Number(JsonObject body, string name, List<JobProblem> problems, double? usual = null)
    {
        switch (body[name])
        {
            case null when usual is not null:
                return usual;
            case JsonValue value when value.GetValueKind() == JsonValueKind.Number && value.TryGetValue(out double number) && double.IsFinite(number):
                return number;
            case var other:
                problems.Add(new($"$.{name}", other is null ? "missing" : $"found {Show(other)}", "a number is needed"));
                return null;
        }
    }

    /// <summary>Notes members that nothing asked for.</summary>
    public static void NoteUnknown(JsonObject body, List<JobProblem> problems, params IReadOnlyList<string> known) =>
        problems.AddRange(body.Select(m => m.Key).Where(k => !known.Contains(k)).Take(Limits.MostProblems + 1)
            .Select(k => new JobProblem($"$.{k}", "unknown member", $"known here: {string.Join(", ", known)}")));

    private static string Show(JsonNode? node) => node?.ToJsonString() is { Length: > 40 } text ? text[..40] + "..." : node?.ToJsonString() ?? "null";

    private static ReadOnlyMemory<byte> WithoutMark(byte[] body) =>
        body.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? body.AsMemory(Encoding.UTF8.Preamble.Length) : body;
}
