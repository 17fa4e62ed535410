using System.Diagnostics;
using OpenTelemetry;

namespace Shimwright.Web.Running;

/// <summary>
/// Leaves in a trace what says which kind of request took how long and how it was answered. All else goes, also what a later version of a
/// library adds: paths name engines and jobs, and what is typed into a search stands in the query.
/// </summary>
internal sealed class PlainSpans : BaseProcessor<Activity>
{
    private static readonly HashSet<string> Plain = new(StringComparer.Ordinal)
    {
        "http.request.method", "http.response.status_code", "http.route", "error.type", "network.protocol.version", "url.scheme",
    };

    public override void OnEnd(Activity data)
    {
        ArgumentNullException.ThrowIfNull(data);
        foreach ((string name, object? _) in data.TagObjects.ToArray())
        {
            if (!Plain.Contains(name))
            {
                data.SetTag(name, null);
            }
        }

        // What came with the request from the asking side; null would leave it as it is.
        data.TraceStateString = "";
    }
}
