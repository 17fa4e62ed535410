using System.Globalization;
using System.Net;
using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Shimwright.Domain.Numerics;
using Shimwright.Jobs.Due;
using Shimwright.Pages.Pictures;

namespace Shimwright.Study;

/// <summary>What became of the jobs of a population, strategy by strategy.</summary>
internal sealed record StudiedPopulation(string Name, IReadOnlyList<(string Name, Outcome[] Outcomes)> Rows);

/// <summary>The study as one page that needs nothing else: shares as bars, promises as the bench draws them.</summary>
internal static class StudyPage
{
    private const int Groups = 5;
    private const int BarWidth = 260, RowHeight = 24;

    public static async Task<string> OfAsync(int engines, int seed, IReadOnlyList<StudiedPopulation> studied)
    {
        await using ServiceProvider services = new ServiceCollection().BuildServiceProvider();
        await using HtmlRenderer renderer = new(services, NullLoggerFactory.Instance);
        StringBuilder body = new();
        int pictures = 0;
        foreach (StudiedPopulation population in studied)
        {
            body.Append(CultureInfo.InvariantCulture, $"<section><h2>{WebUtility.HtmlEncode(population.Name)}</h2>{Bars(population)}");
            foreach ((string name, Outcome[] outcomes) in population.Rows.Where(r => r.Outcomes.Any(o => o.Promised is not null)))
            {
                body.Append(CultureInfo.InvariantCulture, $"<h3>{WebUtility.HtmlEncode(name)}: promised and achieved</h3>{(await CalibrationAsync(renderer, outcomes)).Replace("cal-", string.Create(CultureInfo.InvariantCulture, $"cal{++pictures}-"), StringComparison.Ordinal)}");
            }

            body.Append("</section>");
        }

        return $$"""
            <!DOCTYPE html>
            <html lang="en">
            <head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Study - Shimwright</title><style>{{Style()}}</style></head>
            <body><main>
            <h1>Simulated engines, strategy by strategy</h1>
            <p>{{engines.ToString(CultureInfo.InvariantCulture)}} engines of each population, seed {{seed.ToString(CultureInfo.InvariantCulture)}}. The true clearances are known here, as they never are at a bench. Bars: share of jobs that are right at the first re-check, with its 95 % range.</p>
            {{body}}
            </main></body>
            </html>

            """;
    }

    private static string Bars(StudiedPopulation population)
    {
        StringBuilder bars = new();
        StringBuilder rows = new();
        foreach ((int at, (string name, Outcome[] outcomes)) in population.Rows.Index())
        {
            BinomialShare share = new(outcomes.Count(o => o.RightFirst), outcomes.Length);
            double y = at * RowHeight;
            bars.Append(CultureInfo.InvariantCulture, $"""<rect x="0" y="{y + 4:0.#}" width="{share.Share * BarWidth:0.#}" height="14" fill="currentColor" opacity="0.35"/><line x1="{share.Low * BarWidth:0.#}" x2="{share.High * BarWidth:0.#}" y1="{y + 11:0.#}" y2="{y + 11:0.#}" stroke="currentColor" stroke-width="2"/><text x="{BarWidth + 8}" y="{y + 16:0.#}" font-size="13">{share.Share:0.00} {WebUtility.HtmlEncode(name)}</text>""");
            rows.Append(CultureInfo.InvariantCulture, $"<tr><td>{WebUtility.HtmlEncode(name)}</td><td>{share.Share:0.000}</td><td>{share.Low:0.000} to {share.High:0.000}</td><td>{outcomes.Average(o => o.Minutes):0.0}</td></tr>");
        }

        return string.Create(CultureInfo.InvariantCulture, $"""
            <figure><svg viewBox="0 0 820 {population.Rows.Count * RowHeight}" role="img"><title>Right at the first re-check, {WebUtility.HtmlEncode(population.Name)}</title>{bars}</svg></figure>
            <table><thead><tr><th>Strategy</th><th>Right at first re-check</th><th>95 %</th><th>All rounds, min</th></tr></thead><tbody>{rows}</tbody></table>
            """);
    }

    private static async Task<string> CalibrationAsync(HtmlRenderer renderer, Outcome[] outcomes)
    {
        Outcome[] promised = [.. outcomes.Where(o => o.Promised is not null).OrderBy(o => o.Promised)];
        ScoredChances[] groups = [.. promised.Chunk((promised.Length + Groups - 1) / Groups)
            .Select(g => new ScoredChances(g[0].Promised!.Value, g[^1].Promised!.Value, g.Average(o => o.Promised!.Value), new BinomialShare(g.Count(o => o.RightFirst), g.Length)))];
        return await renderer.Dispatcher.InvokeAsync(async () => (await renderer.RenderComponentAsync<CalibrationPicture>(
            ParameterView.FromDictionary(new Dictionary<string, object?> { [nameof(CalibrationPicture.Groups)] = groups }))).ToHtmlString());
    }

    private static string Style()
    {
        using System.IO.Stream css = typeof(StudyPage).Assembly.GetManifestResourceStream("app.css")!;
        using StreamReader reader = new(css);
        return reader.ReadToEnd();
    }
}
