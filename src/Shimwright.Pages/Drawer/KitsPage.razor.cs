using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Components;
using Shimwright.Bench;
using Shimwright.Bench.Orders;
using Shimwright.Bench.Settings;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Drawer;

/// <summary>The bench's kits, compared; they are kept with its settings.</summary>
public sealed partial class KitsPage : ComponentBase
{
    private const int MostKits = 100;
    private const double HighestWorth = 1e6;

    private List<JobProblem> _problems = [];
    private OrderQuery _query = new(1, null);
    private BenchSettings _settings = new();
    private LengthStyle _lengths = LengthStyle.Millimetres;
    private IReadOnlyList<KitComparison> _comparisons = [];
    private KitForm _form = new();
    private KitOnOffer? _out;
    private int _version;
    private double _worth;

    [SupplyParameterFromQuery(Name = "days")]
    private string? Days { get; set; }

    [SupplyParameterFromQuery(Name = "worth")]
    private string? Worth { get; set; }

    /// <summary>A kit that was taken out, so that it can be put back.</summary>
    [SupplyParameterFromQuery(Name = "out")]
    private string? Gone { get; set; }

    [SupplyParameterFromForm(FormName = "keep")]
    private KitForm? Keep { get; set; }

    [SupplyParameterFromForm(Name = "Out")]
    private OutForm? Out { get; set; }

    [Inject]
    private IVisit Visit { get; set; } = null!;

    [Inject]
    private IBench Bench { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        StoredSettings stored = await Bench.Settings.CurrentAsync();
        (_version, _settings) = (stored.Version, stored.Settings);
        _lengths = LengthStyle.Of(_settings);
        _query = OrderQuery.Read(Days, null, _problems);
        _worth = ReadWorth();
        if (_problems.Count > 0)
        {
            Visit.Refuse();
        }

        FleetOrders fleet = await Bench.Orders.ListAsync(_query.Horizon);
        _comparisons = KitComparison.Of(fleet, _settings, _worth);
        _out = ReadGone();
        _form = Keep ?? (_out is { } gone ? KitForm.Of(gone, _lengths)
            : new KitForm { Diameter = fleet.Diameters.MaxBy(d => d.Demand.Wanted) is { } most ? _lengths.Field(most.DiameterMm) : null });
    }

    private JobProblem? Of(string field) => _problems.FirstOrDefault(p => p.Path == field);

    private async Task KeepAsync()
    {
        _problems = [];
        if (Keep!.Read(_lengths, _problems) is { } kit)
        {
            if (_settings.KitsOffered.Count >= MostKits)
            {
                _problems.Add(new("name", $"there are {MostKits} kits already", "remove one first"));
            }
            else if (_settings.KitsOffered.Contains(kit))
            {
                // The same tap sent twice.
                Navigation.NavigateTo("/drawer/kits");
                return;
            }
            else
            {
                await SaveAsync([.. _settings.KitsOffered, kit], Keep.Seen, "/drawer/kits");
                return;
            }
        }

        Visit.Refuse();
    }

    private async Task TakeOutAsync()
    {
        if (Out!.Seen != _version || Out.Place < 0 || Out.Place >= _settings.KitsOffered.Count)
        {
            Refuse();
            return;
        }

        KitOnOffer kit = _settings.KitsOffered[Out.Place];
        await SaveAsync([.. _settings.KitsOffered.Where((_, i) => i != Out.Place)], Out.Seen, "/drawer/kits?out=" + Uri.EscapeDataString(JsonSerializer.Serialize(kit, GoneContext.Default.KitOnOffer)) + "#keep");
    }

    private async Task SaveAsync(IReadOnlyList<KitOnOffer> kits, int seen, string next)
    {
        if (await Bench.Settings.SaveAsync(_settings with { KitsOffered = kits }, seen, Visit.Device))
        {
            Navigation.NavigateTo(next);
        }
        else
        {
            Refuse();
        }
    }

    private void Refuse()
    {
        _problems = [new("kits", "the settings were changed on another device in between", "check the kits shown now and do it again")];
        Visit.Conflict();
    }

    private double ReadWorth()
    {
        double? worth = TypedNumber.Plain(Worth, "worth", needed: false).Note(_problems);
        if (worth is not (null or (>= 0 and <= HighestWorth)))
        {
            _problems.Add(new("worth", $"found {Times.Exact(worth.Value)}", $"allowed is 0 to {HighestWorth:0}"));
            worth = null;
        }

        return worth ?? KitComparison.UsualWorth(_settings);
    }

    private KitOnOffer? ReadGone()
    {
        try
        {
            return Gone is { Length: > 0 and < 1000 } && JsonSerializer.Deserialize(Gone, GoneContext.Default.KitOnOffer) is { Name: not null } kit && kit.Problems().Count == 0 ? kit : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private sealed class OutForm : ActionForm
    {
        public int Place { get; set; }
    }
}

[JsonSerializable(typeof(KitOnOffer))]
internal sealed partial class GoneContext : JsonSerializerContext;
