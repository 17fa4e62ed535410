using System.Text.Json;

namespace Shimwright.Browser.Looks;

/// <summary>What a page measures in the browser.</summary>
internal static class Sizes
{
    /// <summary>How far the page can be scrolled sideways, CSS pixels.</summary>
    public static Task<int> SidewaysAsync(IPage page) =>
        page.EvaluateAsync<int>("() => Math.max(document.documentElement.scrollWidth, document.body.scrollWidth) - document.documentElement.clientWidth");

    /// <summary>
    /// Things to tap that are smaller than a side, as "words: width x height". A control inside a label is tapped by the
    /// whole label; links in running text and what is not shown are left out, as WCAG 2.2 leaves out inline links.
    /// </summary>
    public static async Task<IReadOnlyList<string>> SmallAsync(IPage page, double side)
    {
        JsonElement small = await page.EvaluateAsync<JsonElement>(Script, side);
        return [.. small.EnumerateArray().Select(s => s.GetString()!)];
    }

    private const string Script =
        """
        side => {
          const things = document.querySelectorAll("button, .button, summary, .chips label, .stages a, .top nav a, .top .mark, .strip a, nav.head a, .stop-valve, .job-head p a, .crank a, .tap-link, .rows a, select, input:not([type=hidden]), textarea");
          const small = new Set();
          for (const thing of things) {
            const target = thing.matches("input") && thing.closest("label") ? thing.closest("label") : thing;
            const box = target.getBoundingClientRect();
            const shown = target.checkVisibility({ visibilityProperty: true }) && box.width > 0 && box.height > 0;
            // Half a pixel for rounding to the device's grid.
            if (shown && (box.width < side - 0.5 || box.height < side - 0.5)) {
              const words = (target.textContent || target.getAttribute("name") || target.id || "").trim().replace(/\s+/g, " ").slice(0, 40);
              small.add(`${target.tagName.toLowerCase()} "${words}": ${box.width.toFixed(1)} x ${box.height.toFixed(1)}`);
            }
          }
          return [...small];
        }
        """;
}
