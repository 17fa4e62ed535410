using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web.HtmlRendering;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Shimwright.Pages.Visits;

/// <summary>The pages by which a visit is answered.</summary>
/// <param name="Document">What is around every page, with the router in it.</param>
/// <param name="NotFound">What the router shows where there is nothing.</param>
/// <param name="NotFoundAddress">The address at which that is a page like any other.</param>
/// <param name="ErrorAddress">The address of the page that says what went wrong, but for its code.</param>
public sealed record VisitPages(Type Document, Type NotFound, string NotFoundAddress, string ErrorAddress);

/// <summary>Makes pages without a server: an address and perhaps a form in, a page out, each visit with services of its own.</summary>
public sealed class PageVisits(IServiceScopeFactory scopes, VisitPages pages)
{
    /// <summary>Visits a page.</summary>
    /// <param name="request">What the visit comes with.</param>
    /// <returns>What the visitor gets.</returns>
    public async Task<VisitAnswer> VisitAsync(VisitRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        VisitAnswer answer = await MakeAsync(request);
        return answer.Html.Length > 0 || answer.Outcome is not (VisitOutcome.Missing or VisitOutcome.NoSuchForm) ? answer
            : answer with { Html = await AboutAsync(request, answer.Outcome == VisitOutcome.Missing ? 404 : 400) };
    }

    private async Task<string> AboutAsync(VisitRequest request, int code) =>
        (await MakeAsync(request with { Address = new Uri(request.Address, $"{pages.ErrorAddress}?code={code}"), Form = null })).Html;

    private async Task<VisitAnswer> MakeAsync(VisitRequest request)
    {
        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        scope.ServiceProvider.GetRequiredService<VisitEntry>().Request = request;
        await using var renderer = new PageRenderer(scope.ServiceProvider, scope.ServiceProvider.GetRequiredService<ILoggerFactory>());
        try
        {
            return await renderer.Dispatcher.InvokeAsync(() => MakeAsync(request, renderer, scope.ServiceProvider));
        }
        catch (NavigationException next)
        {
            return new(VisitOutcome.SentOn, "", new Uri(next.Location));
        }
    }

    private async Task<VisitAnswer> MakeAsync(VisitRequest request, PageRenderer renderer, IServiceProvider services)
    {
        VisitNavigation navigation = services.GetRequiredService<VisitNavigation>();
        HtmlRootComponent page = renderer.BeginRenderingComponent(pages.Document, ParameterView.Empty);
        await page.QuiescenceTask;
        if (!navigation.SaysNothingIsHere && renderer.HasMade(pages.NotFound) && request.Address.AbsolutePath != pages.NotFoundAddress)
        {
            // No page has the address. Where a page has it and says that there is nothing, that stands in its place.
            return new(VisitOutcome.Missing, "");
        }

        if (request.Form is { } form && !(form.Name is { } name && await renderer.SubmitAsync(name)))
        {
            return new(VisitOutcome.NoSuchForm, "");
        }

        VisitOutcome outcome = navigation.SaysNothingIsHere ? VisitOutcome.Missing : services.GetRequiredService<LocalVisit>().Outcome;
        return new(outcome, page.ToHtmlString());
    }
}
