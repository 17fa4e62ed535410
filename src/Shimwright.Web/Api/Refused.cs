using System.Reflection;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using Shimwright.Jobs.Members;

namespace Shimwright.Web.Api;

/// <summary>A reason to refuse a request: its status and what it is called.</summary>
internal interface IReason
{
    static abstract int Status { get; }

    static abstract string Title { get; }
}

/// <summary>The body is no JSON.</summary>
internal sealed class BadJson : IReason
{
    public static int Status => StatusCodes.Status400BadRequest;

    public static string Title => "The request cannot be read.";
}

/// <summary>What was asked for is not there.</summary>
internal sealed class NotThere : IReason
{
    public static int Status => StatusCodes.Status404NotFound;

    public static string Title => "There is no such thing on this bench.";
}

/// <summary>The device may not do that.</summary>
internal sealed class NotForYou : IReason
{
    public static int Status => StatusCodes.Status403Forbidden;

    public static string Title => "This device may not do that; nothing was saved.";
}

/// <summary>Another device was first.</summary>
internal sealed class Conflict : IReason
{
    public static int Status => StatusCodes.Status409Conflict;

    public static string Title => "Another device has changed this in between; nothing was saved.";
}

/// <summary>The version that was seen is not the one that is kept.</summary>
internal sealed class Outdated : IReason
{
    public static int Status => StatusCodes.Status412PreconditionFailed;

    public static string Title => "Another device has changed this in between; nothing was saved.";
}

/// <summary>The body is larger than is taken.</summary>
internal sealed class TooLarge : IReason
{
    public static int Status => StatusCodes.Status413PayloadTooLarge;

    public static string Title => "The body is too large; nothing was saved.";
}

/// <summary>The body is of another kind.</summary>
internal sealed class WrongKind : IReason
{
    public static int Status => StatusCodes.Status415UnsupportedMediaType;

    public static string Title => "The body must be application/json.";
}

/// <summary>The body is JSON, and something in it is wrong or missing.</summary>
internal sealed class Wrong : IReason
{
    public static int Status => StatusCodes.Status422UnprocessableEntity;

    public static string Title => "Something is wrong or missing; nothing was saved.";
}

/// <summary>The version that was seen was not said.</summary>
internal sealed class NoVersion : IReason
{
    public static int Status => StatusCodes.Status428PreconditionRequired;

    public static string Title => "Say which version you have seen, in If-Match.";
}

/// <summary>A problem as RFC 9457 has it, with every single thing that is wrong.</summary>
/// <param name="Type">Always about:blank.</param>
/// <param name="Title">What is the matter.</param>
/// <param name="Status">The status.</param>
/// <param name="Errors">Every problem: its path in the body, what was found and what is allowed.</param>
internal sealed record ApiProblem(string Type, string Title, int Status, IReadOnlyList<JobProblem> Errors)
{
    /// <summary>What was added and has to be seen first.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<EntryRow>? Unseen { get; init; }
}

/// <summary>A request that is refused for a reason.</summary>
/// <typeparam name="T">The reason.</typeparam>
internal sealed class Refused<T>(params IReadOnlyList<JobProblem> errors) : IResult, IEndpointMetadataProvider, IStatusCodeHttpResult
    where T : IReason
{
    public IReadOnlyList<EntryRow>? Unseen { get; init; }

    /// <summary>What the matter is, where the reason's own words do not say it.</summary>
    public string Title { get; init; } = T.Title;

    int? IStatusCodeHttpResult.StatusCode => T.Status;

    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder) =>
        builder.Metadata.Add(new ProducesResponseTypeMetadata(T.Status, typeof(ApiProblem), ["application/problem+json"]));

    public Task ExecuteAsync(HttpContext httpContext) => ApiErrors.WriteAsync(httpContext, new("about:blank", Title, T.Status, FirstProblems.Of(errors)) { Unseen = Unseen });
}
