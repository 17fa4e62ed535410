using Shimwright.Bench;
using Shimwright.Storage;

namespace Shimwright.Web.Requests;

/// <summary>What a bench's cookies are called. A browser knows no ports: two benches on one machine would take each other's.</summary>
internal sealed class BenchCookies(IBench bench)
{
    private readonly string _bench = bench is BenchDatabase database ? database.Id : "memory";

    /// <summary>The one that names the device.</summary>
    public string Device => $"shimwright-device-{_bench}";

    /// <summary>The one against which forms are checked.</summary>
    public string Forms => $"shimwright-forms-{_bench}";
}
