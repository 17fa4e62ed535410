using Microsoft.AspNetCore.Components;
using Shimwright.Bench;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Settings;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Settings;
using Shimwright.Jobs.Sheets;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;
using Shimwright.Pages.Wording;

namespace Shimwright.Pages.Jobs;

/// <summary>What every page of a job does alike: find the job, add facts to it, say what went wrong.</summary>
public abstract class JobPage : ComponentBase
{
    /// <summary>The job.</summary>
    [Parameter]
    public Guid Id { get; set; }

    [Inject]
    protected IVisit Visit { get; set; } = null!;

    [Inject]
    protected IBench Bench { get; set; } = null!;

    [Inject]
    protected NavigationManager Navigation { get; set; } = null!;

    [Inject]
    private JobAnswers Answers { get; set; } = null!;

    /// <summary>The job, or null where there is none.</summary>
    protected StoredJob? Job { get; private set; }

    protected JobSheet Sheet => Job!.Sheet;

    private protected JobAnswer Answer => Answers.For(Job!);

    protected StoredSettings Settings { get; private set; } = new(0, new BenchSettings());

    protected LengthStyle Lengths { get; private set; } = LengthStyle.Millimetres;

    [CascadingParameter]
    protected LocalTimes Local { get; set; } = LocalTimes.Unknown;

    /// <summary>What was wrong with what was sent.</summary>
    protected IReadOnlyList<JobProblem> Problems { get; private set; } = [];

    /// <summary>What was added in between and has to be seen first.</summary>
    protected IReadOnlyList<JobEntry> Unseen { get; private set; } = [];

    protected override async Task OnInitializedAsync()
    {
        await LoadAsync();
        if (Job is null)
        {
            Navigation.NotFound();
        }
    }

    /// <summary>Adds facts in one action and goes on to an address; where they are refused, the page is shown again and says why.</summary>
    private protected async Task AddAsync(ActionForm form, string next, params IReadOnlyList<JobFact> facts)
    {
        if (await SaveAsync(form, facts))
        {
            Navigation.NavigateTo(next);
        }
    }

    /// <summary>Adds what a part of the page brought and shows the page anew, or says what is wrong with it.</summary>
    private protected Task SendAsync(SentFacts sent) => SendAsync(sent, new Uri(Navigation.Uri).AbsolutePath);

    /// <summary>Adds what a form brought and goes on to an address, or says what is wrong with it.</summary>
    private protected Task SendAsync(SentFacts sent, string next)
    {
        if (sent.Problems.Count == 0)
        {
            return AddAsync(sent.Form, next, sent.Facts);
        }

        Refuse(sent.Problems);
        return Task.CompletedTask;
    }

    /// <summary>Adds facts in one action and stays; where they are refused, the page says why.</summary>
    private protected async Task<bool> SaveAsync(ActionForm form, params IReadOnlyList<JobFact> facts)
    {
        if (Job is { } known && form.Seen > known.Sheet.Last)
        {
            Refuse(new JobProblem("$", FormattableString.Invariant($"your page says that it has seen entry {form.Seen}, and the job has {known.Sheet.Last}"), "load the page again"));
            return false;
        }

        if (Visit.Role != DeviceRole.Owner && Job is { } own && facts.Any(f => OwnerFacts.Has(own.Sheet, f)))
        {
            Refuse(new JobProblem("$", "only an owner discards a job or puts it back", "ask an owner to do it"));
            return false;
        }

        AddResult result = await Bench.Jobs.AddAsync(Id, new Addition(form.Action, Visit.Device, form.Seen, facts));
        if (!result.IsSaved)
        {
            Refuse(result.Problems);
            Unseen = result.Unseen;
        }

        await LoadAsync();
        return result.IsSaved;
    }

    /// <summary>Shows the page again with what is wrong.</summary>
    protected void Refuse(params IReadOnlyList<JobProblem> problems)
    {
        Problems = problems;
        Visit.Refuse();
    }

    private async Task LoadAsync()
    {
        Job = await Bench.Jobs.FindAsync(Id);
        Settings = await Bench.Settings.CurrentAsync();
        Lengths = new LengthStyle(LengthStyle.UnitOf(Settings.Settings.Unit) ?? LengthUnit.Mm);
    }
}
