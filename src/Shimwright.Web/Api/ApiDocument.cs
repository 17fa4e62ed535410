using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Shimwright.Web.Api;

/// <summary>The API's description of itself.</summary>
internal static class ApiDocument
{
    private const string About =
        "The work of the bench as JSON. Lengths are millimetres, temperatures degrees Celsius, clocks the engine's hours or km, times of work minutes. "
        + "Answers of estimate, plan, next, verdict, stops and forecast are word for word what the commands print. "
        + "Errors are problems (RFC 9457) whose member errors lists everything that is wrong, each with path, found and allowed. "
        + "Whatever saves needs the header " + DeviceHeader.Name + " with a name for the sending device. "
        + "On a bench that is open to a network each request carries the token of a program, Authorization: Bearer TOKEN; 401 says that it is not let in, 403 that its role may not do that. "
        + "Torque figures, tightening sequence and limits come from the maker's manual for the engine.";

    public static void Describe(OpenApiOptions options)
    {
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new() { Title = "Shimwright bench", Version = "v1", Description = About };
            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, context, _) =>
        {
            IList<object> metadata = context.Description.ActionDescriptor.EndpointMetadata;
            if (metadata.OfType<Writes>().Any())
            {
                AddHeader(operation, DeviceHeader.Name, "A name for the sending device, 1 to 200 characters.");
            }

            if (context.Description.HttpMethod == "PUT")
            {
                AddHeader(operation, "If-Match", "The ETag of the engine that was seen.");
            }

            if (metadata.OfType<TakesBody>().FirstOrDefault() is { } body)
            {
                operation.RequestBody = new OpenApiRequestBody
                {
                    Required = true,
                    Description = body.About,
                    Content = new Dictionary<string, OpenApiMediaType>
                    {
                        ["application/json"] = new() { Schema = new OpenApiSchema { Type = JsonSchemaType.Object, Title = body.Name, Description = body.About } },
                    },
                };
            }

            return Task.CompletedTask;
        });
    }

    private static void AddHeader(OpenApiOperation operation, string name, string about)
    {
        operation.Parameters ??= [];
        operation.Parameters.Add(new OpenApiParameter
        {
            Name = name,
            In = ParameterLocation.Header,
            Required = true,
            Description = about,
            Schema = new OpenApiSchema { Type = JsonSchemaType.String },
        });
    }
}
