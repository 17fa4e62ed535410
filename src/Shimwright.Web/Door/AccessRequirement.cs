using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Http;
using Shimwright.Bench.Devices;
using Shimwright.Pages.Visits;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Door;

/// <summary>What a visitor has to be in order to look, and in order to send.</summary>
internal sealed record AccessRequirement(DeviceRole Look, DeviceRole Send) : IAuthorizationRequirement
{
    /// <summary>The rules that ask for anything.</summary>
    public static IReadOnlyDictionary<string, AccessRequirement> ByRule { get; } = new Dictionary<string, AccessRequirement>
    {
        [AccessRules.Look] = new(DeviceRole.Reader, DeviceRole.Reader),
        [AccessRules.Work] = new(DeviceRole.Reader, DeviceRole.Mechanic),
        [AccessRules.Take] = new(DeviceRole.Mechanic, DeviceRole.Mechanic),
        [AccessRules.Settle] = new(DeviceRole.Reader, DeviceRole.Owner),
        [AccessRules.Own] = new(DeviceRole.Owner, DeviceRole.Owner),
    };

    /// <summary>Gives a page its rule, and lets anybody have what the pages are made with.</summary>
    public static void OfPage(EndpointBuilder page)
    {
        if (!page.Metadata.OfType<ComponentTypeMetadata>().Any())
        {
            page.Metadata.Add(new AllowAnonymousAttribute());
            return;
        }

        string rule = page.Metadata.OfType<AccessAttribute>().LastOrDefault()?.Rule ?? AccessRules.Work;
        page.Metadata.Add(rule == AccessRules.Open ? new AllowAnonymousAttribute() : new AuthorizeAttribute(rule));
    }
}

/// <summary>Asks whether a visitor may. An address that has no rule is for owners only.</summary>
internal sealed class AccessHandler : AuthorizationHandler<AccessRequirement>
{
    protected override Task HandleRequirementAsync(AuthorizationHandlerContext context, AccessRequirement requirement)
    {
        if (context.Resource is HttpContext request && Visitor.RoleOf(context.User) is { } role)
        {
            bool looks = HttpMethods.IsGet(request.Request.Method) || HttpMethods.IsHead(request.Request.Method) || HttpMethods.IsOptions(request.Request.Method);
            // What leads nowhere is told to whoever is let in.
            DeviceRole needed = request.GetEndpoint() is null ? DeviceRole.Reader : looks ? requirement.Look : requirement.Send;
            if (role >= needed)
            {
                context.Succeed(requirement);
            }
        }

        return Task.CompletedTask;
    }
}
