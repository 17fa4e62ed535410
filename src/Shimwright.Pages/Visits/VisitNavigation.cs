using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;

namespace Shimwright.Pages.Visits;

/// <summary>The address of a visit. A page that sends the visitor on has done so at once: nothing that follows in it is done, as on the server.</summary>
internal sealed class VisitNavigation : NavigationManager, INavigationInterception, IScrollToLocationHash
{
    public VisitNavigation(VisitRequest request)
    {
        Initialize(request.Address.GetLeftPart(UriPartial.Authority) + "/", request.Address.AbsoluteUri);
        OnNotFound += (_, _) => SaysNothingIsHere = true;
    }

    /// <summary>Whether the page said that what it is about is not there.</summary>
    public bool SaysNothingIsHere { get; private set; }

    Task INavigationInterception.EnableNavigationInterceptionAsync() => Task.CompletedTask;

    Task IScrollToLocationHash.RefreshScrollPositionForHash(string locationAbsolute) => Task.CompletedTask;

    protected override void NavigateToCore(string uri, NavigationOptions options) => throw new NavigationException(ToAbsoluteUri(uri).AbsoluteUri);
}
