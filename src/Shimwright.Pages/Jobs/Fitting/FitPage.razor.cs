using Microsoft.AspNetCore.Components;
using Shimwright.Bench.Adding;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sheets;
using Shimwright.Jobs.Wording;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Fitting;

/// <summary>Carrying the plan out: a tick list in working order.</summary>
public sealed partial class FitPage : JobPage
{
    private const string FromDrawer = "drawer";

    private FitView _view = null!;
    private Dictionary<ShimSize, string> _places = [];
    private int _diameter;

    [SupplyParameterFromQuery(Name = "edit")]
    private string? Editing { get; set; }

    [SupplyParameterFromForm(Name = "Tick")]
    private TickForm? Tick { get; set; }

    [SupplyParameterFromForm(Name = "Fit")]
    private FitForm? Fit { get; set; }

    [SupplyParameterFromForm(Name = "Undo")]
    private UndoForm? Undo { get; set; }

    private string Address => $"/jobs/{Id}/fit";

    private bool HasShims => Sheet.Engine.Valvetrain.HasShims;

    private bool IsClosed => Sheet.Closing is not null;

    protected override async Task OnInitializedAsync()
    {
        await base.OnInitializedAsync();
        if (Job is not null)
        {
            _view = FitView.For(Sheet);
            await LookIntoTheDrawerAsync();
        }
    }

    /// <summary>Where the planned shims lie, by size.</summary>
    private async Task LookIntoTheDrawerAsync()
    {
        if (Sheet.Plan is { } plan && JobTerms.UsesShop(Sheet) && plan.Changes.Any(c => c.To is { Source: FromDrawer })
            && await Bench.Engines.FindAsync(Job!.Summary.EngineId) is { Details: { } details } && JobShims.DiameterOf(Sheet, details) is { } diameter)
        {
            _places = (await Bench.Drawer.LotsAsync()).Where(l => l.Size.Diameter == diameter && l.Place.Length > 0).ToDictionary(l => l.Size, l => l.Place);
            _diameter = diameter;
        }
    }

    private string PlaceOf(FitValve valve) => valve is { Done: null, Move.Row.To: { Source: FromDrawer } to }
        ? _places.GetValueOrDefault(new(_diameter, ShimSize.Micrometres(to.Thickness), to.By), "")
        : "";

    /// <summary>The blade to set a screw with.</summary>
    private string SetWith(FitValve valve) => !HasShims && Sheet.Engine.Valves.FirstOrDefault(v => v.Id == valve.Valve) is { } of
        ? WorkingWords.SetWith(of.Band, Answer.Job.Blades, Lengths.Clearance)
        : "";

    private Task TickAsync() => SendAsync(Tick!, new StepTicked(Tick!.Step ?? "", Tick.Done));

    private Task FitAsync()
    {
        List<JobProblem> problems = [];
        ChangeFact? change = Fit!.Read(HasShims, Lengths, problems);
        if (change is null)
        {
            Refuse(problems);
            return Task.CompletedTask;
        }

        return SendAsync(Fit!, change);
    }

    private async Task UndoAsync()
    {
        if (Sheet.InForce.FirstOrDefault(e => e.Number == Undo!.Entry && e.Fact is ChangeFact) is { } entry)
        {
            await SendAsync(Undo!, new Undone(entry.Action, entry.Number));
        }
        else
        {
            Refuse(new JobProblem("valve", "that was taken back already", "look at the list below"));
        }
    }

    private async Task SendAsync(ActionForm form, JobFact fact)
    {
        await AddAsync(form, Address, fact);
        _view = FitView.For(Sheet);
    }

    private sealed class TickForm : ActionForm
    {
        public string? Step { get; set; }

        public bool Done { get; set; }
    }

    private sealed class UndoForm : ActionForm
    {
        public int Entry { get; set; }
    }
}
