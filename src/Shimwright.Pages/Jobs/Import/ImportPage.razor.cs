using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Shimwright.Bench;
using Shimwright.Bench.Engines;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Starting;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Jobs.Import;

/// <summary>A job file is chosen and becomes a job.</summary>
public sealed partial class ImportPage : ComponentBase
{
    private IReadOnlyList<JobProblem> _problems = [];
    private StoredEngine? _engine;

    [Inject]
    private IVisit Visit { get; set; } = null!;

    [Inject]
    private IBench Bench { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [SupplyParameterFromQuery(Name = "engine")]
    private Guid? EngineId { get; set; }

    [SupplyParameterFromForm(FormName = "take-in")]
    private ImportForm? Sent { get; set; }

    protected override async Task OnInitializedAsync() =>
        _engine = EngineId is { } id ? await Bench.Engines.FindAsync(id, Visit.Left) : null;

    private async Task SendAsync()
    {
        if (await SentFile.ReadAsync(Sent!.File, Visit.Left) is not { } file)
        {
            Refuse([new("file", "no file was chosen, or it is empty", "choose a job file; its name usually ends in .json")]);
            return;
        }

        StartedJob taken = await JobImport.RunAsync(
            Bench, file, Sent.Engine == "this" ? _engine?.Id : null, Sent.Engine == "new", (Sent.Action, Visit.Device), Visit.Left);
        if (taken.Job is not { } job)
        {
            Refuse(taken.Problems);
            return;
        }

        StoredJob started = (await Bench.Jobs.FindAsync(job, Visit.Left))!;
        Navigation.NavigateTo(StageLink.Next(job, started.Summary.Stage));
    }

    private void Refuse(IReadOnlyList<JobProblem> problems)
    {
        _problems = problems;
        Visit.Refuse();
    }

    private sealed class ImportForm : ActionForm
    {
        public IBrowserFile? File { get; set; }

        public string? Engine { get; set; }
    }
}
