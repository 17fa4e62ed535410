using System.Text.Json;
using Deque.AxeCore.Commons;

namespace Shimwright.Browser.Looks;

/// <summary>The rules of axe-core, asked in the page itself: one script for all screens that it is shown on.</summary>
internal static class Axe
{
    private const string Ask =
        """
        async rules => {
          const found = await axe.run(document, rules ? { runOnly: { type: "rule", values: rules } } : {});
          const why = node => [...node.any, ...node.all, ...node.none].map(check => check.message).join("; ");
          return {
            passed: found.passes.length,
            faults: found.violations.flatMap(v => v.nodes.map(node => `${v.id}: ${v.help}: ${node.html} (${why(node)})`)),
          };
        }
        """;

    private static readonly string Script = new BundledAxeScriptProvider().GetScript();

    /// <summary>Brings the rules into the page that is open.</summary>
    public static Task BringAsync(IPage page) => page.EvaluateAsync(Script);

    /// <summary>What the page does wrong as it is shown now.</summary>
    /// <param name="page">The page.</param>
    /// <param name="rules">The rules to ask; all of them where none are given.</param>
    public static async Task<IReadOnlyList<string>> FaultsAsync(IPage page, params string[] rules)
    {
        JsonElement found = await page.EvaluateAsync<JsonElement>(Ask, rules.Length == 0 ? null : rules);
        string[] faults = [.. found.GetProperty("faults").EnumerateArray().Select(f => f.GetString()!)];
        return faults.Length == 0 && found.GetProperty("passed").GetInt32() == 0 ? ["axe found nothing to look at"] : faults;
    }
}
