using System.Net;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using Microsoft.Net.Http.Headers;
using Shimwright.Bench;
using Shimwright.Storage;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Door;

/// <summary>Knows a device by the token in its cookie, a program by the one that it sends, and the machine itself by where it calls from.</summary>
internal sealed class DeviceHandler(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logs, UrlEncoder encoder, IBench bench, DoorOptions door, BenchCookies cookies, SecurityLog log)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logs, encoder)
{
    private const string Bearer = "Bearer ";
    private static readonly object Key = new();

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (!door.IsShop)
        {
            return Success(Visitor.Machine());
        }

        // A page about an error comes by twice, the second time with services of its own.
        if (Context.Items[Key] is AuthenticateResult before)
        {
            return before;
        }

        bool isOpen = Context.GetEndpoint()?.Metadata.GetMetadata<IAllowAnonymous>() is not null;
        if (isOpen && Context.GetEndpoint()?.Metadata.GetMetadata<ComponentTypeMetadata>() is null)
        {
            // Styles, scripts, health: nobody needs to know who asks.
            return AuthenticateResult.NoResult();
        }

        try
        {
            AuthenticateResult result = await KnowAsync();
            Context.Items[Key] = result;
            return result;
        }
        catch (Exception fault) when (isOpen && BenchDatabase.WhyAway(fault) is not null)
        {
            // The page that says so is for everybody.
            return AuthenticateResult.NoResult();
        }
    }

    private async Task<AuthenticateResult> KnowAsync()
    {
        string header = Request.Headers.Authorization.ToString();
        bool isProgram = header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase);
        string? token = isProgram ? header[Bearer.Length..].Trim() : Request.Cookies[cookies.LetIn];
        if (!string.IsNullOrEmpty(token) && bench is BenchDatabase database)
        {
            if (await database.Devices.FindAsync(token, Context.RequestAborted) is { } found && found.Device.IsProgram == isProgram)
            {
                if (found.IsRenewed && !isProgram)
                {
                    cookies.Keep(Response, token);
                }

                return Success(Visitor.Of(found.Device));
            }

            log.Unknown(Context.Connection.RemoteIpAddress, Request.Path);
            if (isProgram)
            {
                return AuthenticateResult.Fail("The token is not known.");
            }
        }

        return IsMachineItself ? Success(Visitor.Machine()) : AuthenticateResult.NoResult();
    }

    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.StatusCode = StatusCodes.Status401Unauthorized;
        Response.Headers.Append(HeaderNames.WWWAuthenticate, Bearer.Trim());
        return Task.CompletedTask;
    }

    private bool IsMachineItself => !door.IsLocked && Context.Connection.RemoteIpAddress is { } caller && IPAddress.IsLoopback(caller);

    private AuthenticateResult Success(System.Security.Claims.ClaimsPrincipal visitor) => AuthenticateResult.Success(new(visitor, Scheme.Name));
}
