using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Shimwright.Pages.Visits;
using Shimwright.Web.Visitors;

namespace Shimwright.Web.Door;

/// <summary>Who is let in, and what each may.</summary>
internal static class DoorServices
{
    public static void AddDoor(this IServiceCollection services, DoorOptions options)
    {
        services.AddSingleton(options);
        services.AddSingleton<SecurityLog>();
        services.AddAuthentication(Visitor.Scheme).AddScheme<AuthenticationSchemeOptions, DeviceHandler>(Visitor.Scheme, _ => { });
        services.AddAuthorization(authorization =>
        {
            foreach ((string rule, AccessRequirement requirement) in AccessRequirement.ByRule)
            {
                authorization.AddPolicy(rule, policy => policy.AddRequirements(requirement));
            }

            authorization.FallbackPolicy = new AuthorizationPolicyBuilder().AddRequirements(AccessRequirement.ByRule[AccessRules.Own]).Build();
        });
        services.AddSingleton<IAuthorizationHandler, AccessHandler>();
        services.AddCodeLimits();
    }

    public static void UseDoor(this IApplicationBuilder app)
    {
        app.UseAuthentication();
        app.UseRateLimiter();
        app.Use(NoteRefusals);
        app.UseAuthorization();
    }

    private static async Task NoteRefusals(HttpContext context, Func<Task> next)
    {
        await next();
        if (context.Response.StatusCode == StatusCodes.Status403Forbidden && context.Request.Path != Requests.ErrorPages.Address)
        {
            context.RequestServices.GetRequiredService<SecurityLog>().Refused(Visitor.NameOf(context.User) ?? "nobody", context.Request.Method, context.Request.Path);
        }
    }
}
