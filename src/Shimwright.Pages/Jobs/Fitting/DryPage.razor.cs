using Microsoft.AspNetCore.Components;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Jobs.Readings;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Fitting;

/// <summary>A dry fit: the changed valves felt with the camshaft laid down, and the plan carried on from there.</summary>
public sealed partial class DryPage : ReadingPage
{
    private ReadingRound? _round;
    private PlanAccepted? _plan;

    [SupplyParameterFromForm(FormName = "go-on")]
    private DryForm? GoOn { get; set; }

    protected override string Page => "dry";

    private string NothingToFeel => Sheet switch
    {
        { Plan: null } => "No plan is accepted yet, so there is nothing to fit dry.",
        _ when JobStages.Of(Sheet) != JobStage.Fit => "Every camshaft is down for good: feel the valves at the re-check.",
        _ => "A dry fit comes once every planned shim under a camshaft is in, and before the camshaft goes down for good. It is felt and lifted again.",
    };

    protected override async Task OnInitializedAsync()
    {
        await base.OnInitializedAsync();
        if (Job is not null)
        {
            Look();
        }
    }

    private void Look()
    {
        _round = JobAnswer.IsAtDryFit(Sheet) ? Rounds.Dry(Sheet, Answer) : null;
        _plan = Answer.DryPlan is { } plan ? DryFits.CarryOn(Sheet, PlanProposal.AllOf(plan).First(p => p.IsAdvised).Plan) : null;
    }

    private Task TapAsync(SentFacts sent, RoundValve valve) => TapAsync(sent, valve, () => Rounds.Dry(Sheet, Answer));

    private async Task GoOnAsync()
    {
        // What is gone on with is what was seen: the mark names the plan with all its figures.
        if (_plan is { } plan && PlanProposal.FingerprintOf(plan) == GoOn!.Mark)
        {
            await AddAsync(GoOn, $"/jobs/{Id}/fit", plan);
        }
        else
        {
            Refuse(new JobProblem("plan", "its figures are others now than those that were shown", "look at what stays and what goes below, and go on if it still suits"));
        }

        Look();
    }

    internal sealed class DryForm : ActionForm
    {
        public string? Mark { get; set; }
    }
}
