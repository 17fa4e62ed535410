using System.Reflection;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;

namespace Shimwright.Web.Api;

/// <summary>Why a change of an engine is refused: more reasons than one list of answers holds.</summary>
internal sealed class EngineRefusal(IResult reason) : IResult, IEndpointMetadataProvider, IStatusCodeHttpResult
{
    int? IStatusCodeHttpResult.StatusCode => (reason as IStatusCodeHttpResult)?.StatusCode;

    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder)
    {
        Refused<Outdated>.PopulateMetadata(method, builder);
        Refused<TooLarge>.PopulateMetadata(method, builder);
        Refused<WrongKind>.PopulateMetadata(method, builder);
        Refused<Wrong>.PopulateMetadata(method, builder);
        Refused<NoVersion>.PopulateMetadata(method, builder);
    }

    public Task ExecuteAsync(HttpContext httpContext) => reason.ExecuteAsync(httpContext);
}
