using Microsoft.AspNetCore.Components;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Wording;
using Shimwright.Pages.Jobs.Planning;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Fitting;

/// <summary>Carrying the plan out: a tick list in working order.</summary>
public sealed partial class FitPage : JobPage
{
    private FitView _view = null!;
    private ShimPlaces _places = ShimPlaces.None;

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
        if (Job is { } job)
        {
            _view = FitView.For(Sheet);
            _places = await ShimPlaces.ForAsync(Bench, job, Sheet.Plan);
        }
    }

    /// <summary>The blade to set a screw with.</summary>
    private string SetWith(FitValve valve) => !HasShims && Sheet.Engine.Valves.FirstOrDefault(v => v.Id == valve.Valve) is { } of
        ? WorkingWords.SetWith(of.Band, Answer.Job.Blades, Lengths.Clearance)
        : "";

    private Task TickAsync() => SendAsync(Tick!, Tick!.Step == FitView.AllBefore
        ? [.. _view.Before.Where(t => !t.Done).Select(t => new StepTicked(t.Step.Name, true))]
        : [new StepTicked(Tick.Step ?? "", Tick.Done)]);

    private Task FitAsync()
    {
        List<JobProblem> problems = [];
        IReadOnlyList<JobFact> changes = Fit!.Group is { } name && string.IsNullOrEmpty(Fit.Valve)
            ? [.. _view.Groups.Where(g => g.Name == name).SelectMany(g => g.Planned).Select(m => PlannedChange.Of(m.Row))]
            : Fit.Read(HasShims, Lengths, problems) is { } change ? [change] : [];
        if (problems.Count > 0 || changes.Count == 0)
        {
            Refuse(problems.Count > 0 ? problems : [new("valves", "every one is done already", "look at the list below")]);
            return Task.CompletedTask;
        }

        return SendAsync(Fit, changes);
    }

    private async Task UndoAsync()
    {
        if (Sheet.InForce.FirstOrDefault(e => e.Number == Undo!.Entry && e.Fact is ChangeFact) is { } entry)
        {
            await SendAsync(Undo!, [new Undone(entry.Action, entry.Number)]);
        }
        else
        {
            Refuse(new JobProblem("valve", "it was taken back already", "look at the list below"));
        }
    }

    private async Task SendAsync(ActionForm form, IReadOnlyList<JobFact> facts)
    {
        await AddAsync(form, Address, facts);
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
