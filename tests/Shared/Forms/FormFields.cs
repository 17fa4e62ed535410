using AngleSharp.Dom;
using AngleSharp.Html.Dom;

namespace Shimwright.Testing.Forms;

/// <summary>What a browser without script sends of a form that nobody has touched: hidden fields and what stands in the fields.</summary>
internal static class FormFields
{
    public static IEnumerable<KeyValuePair<string, string>> Of(IHtmlFormElement form) => form.QuerySelectorAll("input, select, textarea").SelectMany(Sent);

    private static IEnumerable<KeyValuePair<string, string>> Sent(IElement element)
    {
        string? name = element.GetAttribute("name");
        if (string.IsNullOrEmpty(name) || element.HasAttribute("disabled"))
        {
            return [];
        }

        return element switch
        {
            IHtmlInputElement { Type: "submit" or "button" or "image" or "reset" or "file" } => [],
            IHtmlInputElement { Type: "checkbox" or "radio" } box => box.IsChecked ? [new(name, box.GetAttribute("value") ?? "on")] : [],
            IHtmlInputElement input => [new(name, input.Value)],
            IHtmlTextAreaElement area => [new(name, area.Value)],
            IHtmlSelectElement select => [.. select.Options.Where(o => o.IsSelected).Select(o => KeyValuePair.Create(name, o.Value))],
            _ => [],
        };
    }
}
