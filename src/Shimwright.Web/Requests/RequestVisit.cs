using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Shimwright.Bench.Devices;
using Shimwright.Pages.Visits;
using Shimwright.Storage;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Requests;

/// <summary>A visit that comes as a request: its outcome is the status of the answer.</summary>
internal sealed class RequestVisit : IVisit
{
    private HttpContext? _request;

    public string Device { get; private set; } = "";

    public bool MayLeaveOut => HttpMethods.IsPost(Request.Request.Method) || Request.Request.Cookies["script"] == "1";

    public CancellationToken Left => Request.RequestAborted;

    private HttpContext Request => _request ?? throw new InvalidOperationException("The visit has not begun.");

    /// <summary>Begins the visit.</summary>
    /// <param name="request">The request.</param>
    /// <param name="device">The device that it comes from.</param>
    public void Begin(HttpContext request, string device)
    {
        _request = request;
        Device = device;
    }

    public string? DatabaseAway => Request.Features.Get<IExceptionHandlerFeature>()?.Error is { } fault && BenchDatabase.WhyAway(fault) is { } why
        ? $"{char.ToUpperInvariant(why.Reason[0])}{why.Reason[1..]}. {char.ToUpperInvariant(why.Next[0])}{why.Next[1..]}."
        : null;

    public bool WasSent => ErrorPages.MethodOf(Request) is { } method && !HttpMethods.IsGet(method) && !HttpMethods.IsHead(method);

    public bool IsUnreadable => Request.Features.Get<IAntiforgeryValidationFeature>()?.Error?.InnerException is InvalidDataException or IOException or BadHttpRequestException
        || Request.Features.Get<IExceptionHandlerFeature>()?.Error is BadHttpRequestException;

    public DeviceRole? Role => Visitor.RoleOf(Request.User);

    public bool IsGone => WasSent && Request.Features.Get<IAntiforgeryValidationFeature>() is { IsValid: true };

    public void Refuse() => Request.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;

    public void Conflict() => Request.Response.StatusCode = StatusCodes.Status409Conflict;
}
