using Microsoft.AspNetCore.Builder;
using Shimwright.Pages.Visits;

namespace Shimwright.Web.Visitors;

/// <summary>Who may visit an address.</summary>
internal static class Access
{
    /// <summary>An endpoint with a rule of its own.</summary>
    public static TBuilder ForAccess<TBuilder>(this TBuilder endpoint, string rule)
        where TBuilder : IEndpointConventionBuilder =>
        rule == AccessRules.Open ? endpoint.AllowAnonymous() : endpoint.RequireAuthorization(rule);
}
