using System.Diagnostics.CodeAnalysis;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.HtmlRendering.Infrastructure;
using Microsoft.AspNetCore.Components.Rendering;
using Microsoft.AspNetCore.Components.RenderTree;
using Microsoft.Extensions.Logging;

namespace Shimwright.Pages.Visits;

/// <summary>Makes one page, and sends one form of it: the framework's own renderer of static pages, which by itself leaves forms to the server.</summary>
[SuppressMessage("Usage", "BL0006:Do not use RenderTree types", Justification = "Which forms a page has stands only in its render tree, and the framework has no other way to send one without its server.")]
internal sealed class PageRenderer(IServiceProvider services, ILoggerFactory log) : StaticHtmlRenderer(services, log)
{
    private const string Submit = "onsubmit";

    private readonly Dictionary<string, List<Place>> _forms = new(StringComparer.Ordinal);
    private readonly HashSet<Type> _made = [];

    /// <summary>Whether a component of this kind was made.</summary>
    public bool HasMade(Type component) => _made.Contains(component);

    /// <summary>Sends a form of the page.</summary>
    /// <param name="form">Its name.</param>
    /// <returns>Whether the page has it, once all that follows from it is done.</returns>
    /// <exception cref="InvalidOperationException">The page has several forms of that name.</exception>
    public async Task<bool> SubmitAsync(string form)
    {
        switch (_forms.GetValueOrDefault(form))
        {
            case null or []:
                return false;
            case [var place]:
                await DispatchEventAsync(HandlerAt(place), null, EventArgs.Empty, waitForQuiescence: true);
                return true;
            default:
                throw new InvalidOperationException($"There is more than one form named \"{form}\" on the page.");
        }
    }

    protected override ComponentState CreateComponentState(int componentId, IComponent component, ComponentState? parentComponentState)
    {
        _made.Add(component.GetType());
        return base.CreateComponentState(componentId, component, parentComponentState);
    }

    protected override Task UpdateDisplayAsync(in RenderBatch renderBatch)
    {
        if (renderBatch.NamedEventChanges is { } changes)
        {
            foreach (NamedEventChange change in changes.Array.Take(changes.Count).Where(c => c.EventType == Submit))
            {
                Note(change);
            }
        }

        return base.UpdateDisplayAsync(renderBatch);
    }

    private void Note(NamedEventChange change)
    {
        if (!_forms.TryGetValue(change.AssignedName, out List<Place>? places))
        {
            _forms[change.AssignedName] = places = [];
        }

        Place place = new(change.ComponentId, change.FrameIndex);
        if (change.ChangeType == NamedEventChangeType.Added)
        {
            places.Add(place);
        }
        else
        {
            places.Remove(place);
        }
    }

    /// <summary>The handler stands among the attributes of the form, before its name.</summary>
    private ulong HandlerAt(Place place)
    {
        RenderTreeFrame[] frames = GetCurrentRenderTreeFrames(place.Component).Array;
        for (int k = place.Frame - 1; k >= 0 && frames[k].FrameType != RenderTreeFrameType.Element; k--)
        {
            if (frames[k] is { FrameType: RenderTreeFrameType.Attribute, AttributeEventHandlerId: > 0 } attribute && attribute.AttributeName == Submit)
            {
                return attribute.AttributeEventHandlerId;
            }
        }

        throw new InvalidOperationException("The form has a name and nothing that takes it.");
    }

    private readonly record struct Place(int Component, int Frame);
}
