using Microsoft.AspNetCore.Components;
using Shimwright.Domain.Shims;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Jobs.Planning;

/// <summary>The plan of a job: looked at, accepted, let go, and made anew where shims or costs are others.</summary>
public sealed partial class PlanPage : JobPage
{
    private PlanView _view = null!;
    private ShimPlaces _places = ShimPlaces.None;
    private PlanWants _wants = new([], [], []);
    private StockForm _stock = new();
    private CostsForm _costs = new();

    [SupplyParameterFromQuery(Name = "plan")]
    private int? Asked { get; set; }

    /// <summary>What is marked on a shim that is to be measured, mm.</summary>
    [SupplyParameterFromQuery(Name = "measure")]
    private string? MarkedText { get; set; }

    /// <summary>Where it comes from: drawer or buy.</summary>
    [SupplyParameterFromQuery(Name = "from")]
    private string? From { get; set; }

    [SupplyParameterFromForm(FormName = "measure")]
    private MeasuredForm? Measured { get; set; }

    [SupplyParameterFromForm(FormName = "accept")]
    private AcceptForm? Accept { get; set; }

    [SupplyParameterFromForm(FormName = "release")]
    private ActionForm? Release { get; set; }

    [SupplyParameterFromForm(FormName = "stock")]
    private StockForm? Stock { get; set; }

    [SupplyParameterFromForm(FormName = "costs")]
    private CostsForm? Costs { get; set; }

    private string Address => $"/jobs/{Id}/plan";

    private double? ToMeasure => double.TryParse(MarkedText, System.Globalization.CultureInfo.InvariantCulture, out double mark)
        && mark is >= Thickness.Thinnest and <= Thickness.Thickest ? mark : null;

    private bool IsBought => From == "buy";

    private string MeasureAddress => $"{Address}?measure={MeasuredForm.InAddress(ToMeasure ?? 0)}&from={(IsBought ? "buy" : "drawer")}";

    private bool HasShims => Sheet.Engine.Valvetrain.HasShims;

    private string ClockUnit => ClockStyle.KeptUnit(Sheet.Setup.Card.Wear);

    protected override async Task OnInitializedAsync()
    {
        await base.OnInitializedAsync();
        if (Job is { } job)
        {
            Look();
            _places = await ShimPlaces.ForAsync(Bench, job, _view.Accepted, _view.Shown?.Plan);
        }
    }

    private void Look()
    {
        _view = PlanView.Of(Sheet, Answer, Asked);
        _wants = _view.Accepted is null ? PlanView.Wants(Sheet, Answer.PlanNeeds) : new([], [], []);
        _stock = Stock ?? StockForm.Of(JobTerms.Stock(Sheet), Lengths);
        _costs = Costs ?? CostsForm.Of(JobTerms.Costs(Sheet));
    }

    private async Task AcceptAsync()
    {
        // What is accepted is what was seen: the mark names the plan with all its figures.
        if (PlanView.Of(Sheet, Answer, null).Offers.FirstOrDefault(o => o.Fingerprint == Accept!.Mark) is { } offer)
        {
            await AddAsync(Accept!, $"/jobs/{Id}/fit", offer.Plan);
        }
        else
        {
            Refuse(new JobProblem("plan", "its figures have changed since the page was loaded", "look at the plan below and accept it if it is still right"));
        }

        Look();
    }

    private async Task ReleaseAsync()
    {
        await AddAsync(Release!, Address, new PlanReleased());
        Look();
    }

    private Task MeasureAsync()
    {
        List<JobProblem> problems = [];
        return SaveAsync(Measured!, Measured!.Read(JobTerms.Stock(Sheet), ToMeasure ?? 0, IsBought, Lengths, problems), problems);
    }

    private Task SaveStockAsync()
    {
        List<JobProblem> problems = [];
        return SaveAsync(Stock!, Stock!.Read(Lengths, problems), problems);
    }

    private Task SaveCostsAsync()
    {
        List<JobProblem> problems = [];
        return SaveAsync(Costs!, Costs!.Read(JobTerms.Groups(Sheet), ClockUnit, problems), problems);
    }

    private async Task SaveAsync(ActionForm form, JobFact? fact, List<JobProblem> problems)
    {
        if (fact is null)
        {
            Refuse(problems);
        }
        else
        {
            await AddAsync(form, Address, fact);
        }

        Look();
    }

    private static string AcceptedWords(PlanAccepted plan)
    {
        int changes = plan.Changes.Count();
        return changes == 0
            ? $"Every valve stays as it is. {Chances.Fine(plan.ChanceAll)} chance that all are in band."
            : $"Change {changes} of {plan.Valves.Count} valves. {Chances.Fine(plan.ChanceAll)} chance that all pass the first time. About {Times.Minutes(plan.Minutes)}.";
    }

    private string ShownTitle(PlanProposal shown) =>
        shown == _view.AcceptedOffer ? "The accepted plan as it stands"
        : shown.IsAdvised ? "Advised plan"
        : $"Plan {shown.Number} of {_view.Offers.Count}";

    private sealed class AcceptForm : ActionForm
    {
        public string? Mark { get; set; }
    }
}
