using Microsoft.AspNetCore.Components;
using Shimwright.Bench;
using Shimwright.Bench.Orders;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Drawer;

/// <summary>What the engines that come due will want, and what to order for it.</summary>
public sealed partial class OrdersPage : ComponentBase
{
    /// <summary>How many stale forecasts are worked out while the page waits; the rest follows in the background.</summary>
    private const int WorkedOutNow = 20;

    private readonly List<JobProblem> _problems = [];
    private OrderQuery _query = new(1, null);
    private BenchSettings _settings = new();
    private LengthStyle _lengths = LengthStyle.Millimetres;
    private FleetOrders _fleet = new(default, default, 0, [], [], [], 0, 0);
    private int _stale;

    [SupplyParameterFromQuery(Name = "days")]
    private string? Days { get; set; }

    [SupplyParameterFromQuery(Name = "level")]
    private string? Level { get; set; }

    [Inject]
    private IVisit Visit { get; set; } = null!;

    [Inject]
    private IBench Bench { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        _query = OrderQuery.Read(Days, Level, _problems);
        if (_problems.Count > 0)
        {
            Visit.Refuse();
        }

        _stale = await Bench.Due.RefreshStaleAsync(WorkedOutNow);
        _settings = (await Bench.Settings.CurrentAsync()).Settings;
        _lengths = LengthStyle.Of(_settings);
        _fleet = await Bench.Orders.ListAsync(_query.Horizon, _query.Level);
    }

    private int Ordered => _fleet.Diameters.Sum(d => d.Orders.Lines.Sum(l => l.ToOrder));

    private JobProblem? Of(string field) => _problems.FirstOrDefault(p => p.Path == field);
}
