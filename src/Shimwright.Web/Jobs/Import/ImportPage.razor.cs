using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Shimwright.Jobs.Members;
using Shimwright.Storage.Database;
using Shimwright.Storage.Engines;
using Shimwright.Storage.Jobs;
using Shimwright.Web.Shell;

namespace Shimwright.Web.Jobs.Import;

/// <summary>A job file is chosen and becomes a job.</summary>
public sealed partial class ImportPage : ComponentBase
{
    private IReadOnlyList<JobProblem> _problems = [];
    private StoredEngine? _engine;

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    [Inject]
    private BenchDatabase Database { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [SupplyParameterFromQuery(Name = "engine")]
    private Guid? EngineId { get; set; }

    [SupplyParameterFromForm(FormName = "take-in")]
    private ImportForm? Sent { get; set; }

    protected override async Task OnInitializedAsync() =>
        _engine = EngineId is { } id ? await Database.Engines.FindAsync(id, Http.RequestAborted) : null;

    private async Task SendAsync()
    {
        if (await SentFile.ReadAsync(Sent!.File, Http.RequestAborted) is not { } file)
        {
            Refuse([new("file", "no file was chosen, or it is empty", "choose a job file; its name usually ends in .json")]);
            return;
        }

        ImportedJob taken = await JobImport.RunAsync(
            Database, file, Sent.Engine == "this" ? _engine?.Id : null, Sent.Engine == "new", (Sent.Action, Device.Of(Http)), Http.RequestAborted);
        if (taken.Job is not { } job)
        {
            Refuse(taken.Problems);
            return;
        }

        StoredJob started = (await Database.Jobs.FindAsync(job, Http.RequestAborted))!;
        Navigation.NavigateTo(StageLink.Next(job, started.Summary.Stage));
    }

    private void Refuse(IReadOnlyList<JobProblem> problems)
    {
        _problems = problems;
        Http.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
    }

    private sealed class ImportForm : ActionForm
    {
        public IFormFile? File { get; set; }

        public string? Engine { get; set; }
    }
}
