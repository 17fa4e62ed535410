using Microsoft.AspNetCore.Components;
using Shimwright.Bench;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Labels;

/// <summary>Sheets of labels on a page.</summary>
public sealed partial class LabelsView : ComponentBase
{
    /// <summary>More sheets are printed from the PDF.</summary>
    private const int MostShown = 20;

    private readonly List<JobProblem> _problems = [];
    private IReadOnlyList<LabelChoice> _choices = [];
    private IReadOnlyList<LabelChoice> _chosen = [];

    // An engine that is retired, a size that has run out: picked by an address.
    private IReadOnlyList<LabelChoice> _gone = [];
    private LabelQuery _query = new(LabelKind.Drawer, LabelLayout.Usual, 1, false, null);
    private BenchReach _reach = new("", ReachKind.Network);
    private AddressQuery? _asked;
    private int _sheets;
    private bool _isTooSmall;

    /// <summary>What the labels are of.</summary>
    [Parameter, EditorRequired]
    public LabelKind Kind { get; set; }

    [Inject]
    private IVisit Visit { get; set; } = null!;

    [Inject]
    private IBench Bench { get; set; } = null!;

    [Inject]
    private HostPages Pages { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    /// <inheritdoc/>
    protected override async Task OnInitializedAsync()
    {
        _asked = new(Navigation.Uri);
        _query = LabelQuery.Read(Kind, Value, _problems);
        if (_problems.Count > 0)
        {
            Visit.Refuse();
        }

        _reach = Pages.Reach(new Uri(Navigation.BaseUri));
        LabelDesk desk = new(Bench, _reach.Start, Visit.Left);
        _choices = await desk.ChoicesAsync(Kind);
        _chosen = await desk.ChosenAsync(_query, _choices);
        _gone = [.. _chosen.Except(_choices)];
        _sheets = _query.SheetsFor(_chosen.Count);
        // The longest address has the largest code. Those of engines are all as long.
        IReadOnlyList<Label> labels = await desk.OfAsync(Kind, Kind == LabelKind.Engines ? _chosen.Take(1) : _chosen);
        _isTooSmall = labels.Count > 0 && LabelSheet.Lay([labels.MaxBy(l => l.Address.Length)!], _query)[0].Labels[0].Code is null;
    }

    private string? Value(string name) => _asked![name];
}
