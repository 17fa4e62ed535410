using Shimwright.Bench;
using Shimwright.Bench.Adding;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Sheets;

namespace Shimwright.Pages.Jobs.Planning;

/// <summary>The compartments of the drawer in which the shims of a plan are.</summary>
public sealed class ShimPlaces
{
    private const string FromDrawer = "drawer";

    private readonly Dictionary<ShimSize, string> _places;
    private readonly int _diameter;

    private ShimPlaces(Dictionary<ShimSize, string> places, int diameter)
    {
        _places = places;
        _diameter = diameter;
    }

    /// <summary>No compartment is known.</summary>
    public static ShimPlaces None { get; } = new([], 0);

    /// <summary>The compartments for plans of a job that takes shims from the shop's drawer; the drawer is asked only where one of them does.</summary>
    public static async Task<ShimPlaces> ForAsync(IBench bench, StoredJob job, params IEnumerable<PlanAccepted?> plans)
    {
        ArgumentNullException.ThrowIfNull(bench);
        ArgumentNullException.ThrowIfNull(job);
        return plans.Any(p => p?.Changes.Any(c => c.To is { Source: FromDrawer }) == true)
            && JobTerms.UsesShop(job.Sheet)
            && await bench.Engines.FindAsync(job.Summary.EngineId) is { Details: { } details } && JobShims.DiameterOf(job.Sheet, details) is { } diameter
            ? new((await bench.Drawer.LotsAsync()).Where(l => l.Size.Diameter == diameter && l.Place.Length > 0).ToDictionary(l => l.Size, l => l.Place), diameter)
            : None;
    }

    /// <summary>The compartment of a shim; blank where none is known, or it is not from the drawer.</summary>
    public string Of(FittedRow? to) => to is { Source: FromDrawer }
        ? _places.GetValueOrDefault(new(_diameter, ShimSize.Micrometres(to.Thickness), to.By), "")
        : "";
}
