using System.Reflection;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Metadata;
using Shimwright.Jobs.Results;

namespace Shimwright.Web.Api;

/// <summary>A document, word for word as the command line prints it for a line of a batch.</summary>
/// <typeparam name="T">The kind of document.</typeparam>
internal sealed class Answer<T>(T document) : IResult, IEndpointMetadataProvider, IStatusCodeHttpResult
{
    int? IStatusCodeHttpResult.StatusCode => StatusCodes.Status200OK;

    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder) =>
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(T), ["application/json"]));

    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.ContentType = "application/json; charset=utf-8";
        return httpContext.Response.BodyWriter.WriteAsync(Encoding.UTF8.GetBytes(ResultJson.Write(document, indented: false))).AsTask();
    }
}
