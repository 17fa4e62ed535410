using System.Globalization;
using Microsoft.AspNetCore.Components;
using Shimwright.Bench;
using Shimwright.Bench.Adding;
using Shimwright.Bench.Drawer;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Drawer;

/// <summary>One size of the drawer: counted, and explained by its entries.</summary>
public sealed partial class ShimPage : ComponentBase
{
    private ShimLot? _lot;
    private IReadOnlyList<DrawerMove> _history = [];
    private IReadOnlyList<JobProblem> _problems = [];
    private LengthStyle _lengths = LengthStyle.Millimetres;
    private string _currency = "";
    private ShimForm _form = new();

    [Inject]
    private IVisit Visit { get; set; } = null!;

    [Inject]
    private IBench Bench { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [SupplyParameterFromQuery(Name = "diameter")]
    private string? Diameter { get; set; }

    /// <summary>A job on whose engine the shim would go: it knows the diameter.</summary>
    [SupplyParameterFromQuery(Name = "job")]
    private Guid? ForJob { get; set; }

    [SupplyParameterFromQuery(Name = "thickness")]
    private string? Thickness { get; set; }

    [SupplyParameterFromQuery(Name = "by")]
    private string? By { get; set; }

    [SupplyParameterFromForm(FormName = "count")]
    private ShimForm? Count { get; set; }

    [SupplyParameterFromForm(FormName = "measure")]
    private MeasureForm? Measure { get; set; }

    [SupplyParameterFromForm(Name = "Undo")]
    private UndoForm? Undo { get; set; }

    /// <summary>Whole micrometres: as the address says, or as the job's engine takes them.</summary>
    private async Task<int?> DiameterAsync() =>
        int.TryParse(Diameter, NumberStyles.None, CultureInfo.InvariantCulture, out int diameter) ? diameter
        : ForJob is { } id && await Bench.Jobs.FindAsync(id) is { } job && await Bench.Engines.FindAsync(job.Summary.EngineId) is { } engine
            ? JobShims.DiameterOf(job.Sheet, engine.Details)
        : null;

    protected override async Task OnInitializedAsync()
    {
        BenchSettings settings = (await Bench.Settings.CurrentAsync()).Settings;
        _lengths = LengthStyle.Of(settings);
        _currency = settings.Currency;
        if (await DiameterAsync() is { } diameter
            && int.TryParse(Thickness, NumberStyles.None, CultureInfo.InvariantCulture, out int thickness))
        {
            var size = new ShimSize(diameter, thickness, By ?? "");
            _lot = (await Bench.Drawer.LotsAsync()).FirstOrDefault(l => l.Size == size);
        }

        if (_lot is null)
        {
            Navigation.NotFound();
            return;
        }

        _history = await Bench.Drawer.HistoryAsync(_lot.Size);
        _form = Count ?? new ShimForm
        {
            Count = _lot.Lying.ToString(CultureInfo.InvariantCulture),
            Place = _lot.Place,
            Price = _lot.Price is { } price ? Times.Exact(price) : "",
        };
    }

    /// <summary>The newest entry that the page shows.</summary>
    private int Newest => _history is [var newest, ..] ? newest.Number : 0;

    private JobProblem? Of(string field) => _problems.FirstOrDefault(p => p.Path == field);

    private async Task CountAsync()
    {
        List<JobProblem> problems = [];
        if (Count!.Read(_lengths, problems, _lot!.Size) is { } shims)
        {
            After(await Bench.Drawer.CountAsync([shims], new(Count.Action, Visit.Device, Count.Seen)));
        }
        else
        {
            Refuse(problems);
        }
    }

    private async Task MeasureAsync()
    {
        List<JobProblem> problems = [];
        double? thickness = _lengths.In(Measure!.Unit).Read(Measure.Thickness, "thickness").Note(problems);
        if (thickness is { } found && Math.Abs(found) <= DrawerRules.GreatestDiameter)
        {
            // Who came from a job goes back to it.
            After(
                await Bench.Drawer.MeasureAsync(_lot!.Size, found, _lot.Place.Length > 0 ? _lot.Place : null, new(Measure.Action, Visit.Device)),
                ForJob is { } job ? $"/jobs/{job}/plan" : null);
        }
        else
        {
            Refuse(problems.Count > 0 ? problems : [new("thickness", $"found {Times.Exact(thickness!.Value)} mm", "enter the size of a shim, with its unit where it is not the bench's")]);
        }
    }

    private async Task UndoAsync() => After(await Bench.Drawer.UndoAsync(Undo!.Entry, new(Undo.Action, Visit.Device)));

    private void After(DrawerResult result, string? next = null)
    {
        if (result.IsSaved)
        {
            Navigation.NavigateTo(next ?? DrawerWords.AddressOf(_lot!.Size));
        }
        else
        {
            _problems = result.Problems;
            if (result.Outcome is AddOutcome.Conflict)
            {
                Visit.Conflict();
            }
            else
            {
                Visit.Refuse();
            }
        }
    }

    private void Refuse(IReadOnlyList<JobProblem> problems)
    {
        _problems = problems;
        Visit.Refuse();
    }

    private sealed class MeasureForm : ActionForm
    {
        public string? Thickness { get; set; }

        public string? Unit { get; set; }
    }

    private sealed class UndoForm : ActionForm
    {
        public int Entry { get; set; }
    }
}
