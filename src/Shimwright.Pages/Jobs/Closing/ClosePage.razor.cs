using System.Globalization;
using Microsoft.AspNetCore.Components;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Jobs;
using Shimwright.Bench.Starting;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Fitting;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Closing;

/// <summary>The verdict, closing the job, opening it again, and the second round.</summary>
public sealed partial class ClosePage : JobPage
{
    private const string SecondRoundWords =
        "a new job on the same engine. It starts from the shims that are in now and from all that was felt so far.";

    private CloseView _view = null!;
    private CloseForm _close = new();
    private JobSummary? _round;

    [SupplyParameterFromForm(FormName = "close")]
    private CloseForm? Close { get; set; }

    [SupplyParameterFromForm(FormName = NothingToDoForm.Name)]
    private ActionForm? Nothing { get; set; }

    [SupplyParameterFromForm(FormName = "reopen")]
    private ActionForm? Reopen { get; set; }

    [SupplyParameterFromForm(FormName = "second")]
    private ActionForm? Second { get; set; }

    private string ClockUnit => ClockStyle.KeptUnit(Sheet.Setup.Card.Wear);

    private string Headline =>
        _view.Fails.Count > 0 ? $"{_view.Fails.Count} of {_view.Valves.Count} {(_view.Fails.Count == 1 ? "does" : "do")} not pass"
        : _view.IsNothingToDo ? "All in band, nothing to do"
        : _view.Undone.Count > 0 ? "All pass so far"
        : "All pass";

    private string ConfirmWords => string.Join("; ", new[]
    {
        _view.Fails.Count > 0 ? $"{string.Join(", ", _view.Fails)} {(_view.Fails.Count == 1 ? "does" : "do")} not pass" : "",
        _view.Undone.Count > 0 ? "work left undone" : "",
        _view.Verdict is null ? "no verdict" : "",
    }.Where(w => w.Length > 0)) + ".";

    protected override async Task OnInitializedAsync()
    {
        await base.OnInitializedAsync();
        if (Job is not null)
        {
            _round = await Bench.Jobs.SecondRoundOfAsync(Id);
            Look();
        }
    }

    private void Look()
    {
        _view = CloseView.Of(Sheet, Answer.Verdict ?? (NothingToDo.Is(Sheet) ? Answer.Recheck : null));
        _close = Close ?? new CloseForm { Clock = Sheet.Check.Clock.ToString("0.###", CultureInfo.InvariantCulture), By = DeviceSignature.PersonOf(Visit.Device) };
    }

    private async Task CloseAsync()
    {
        List<JobProblem> problems = [];
        double? clock = TypedNumber.Clock(Close!.Clock, "clock", ClockUnit).Note(problems);
        // Asking for a second round says by itself that the first one failed.
        bool isSecond = Close.Then == "second" && _view.HasChanges;
        if (_view.MustConfirm && !Close.Confirmed && !(isSecond && _view.Undone.Count == 0))
        {
            problems.Add(new("closing", ConfirmWords.TrimEnd('.'), "tick that it is closed all the same, or go on with the work"));
        }

        if (problems.Count > 0)
        {
            Refuse(problems);
            Look();
            return;
        }

        var closing = new JobClosed(clock!.Value, Close.Found?.Trim() ?? "", Close.Notes?.Trim() ?? "", Close.By?.Trim() ?? "");
        if (!isSecond)
        {
            await AddAsync(Close, $"/jobs/{Id}/record", closing);
            Look();
            return;
        }

        if (await SaveAsync(Close, closing))
        {
            await StartSecondAsync(Close);
        }

        Look();
    }

    private async Task CloseAsFoundAsync()
    {
        if (_view.IsNothingToDo)
        {
            await AddAsync(Nothing!, $"/jobs/{Id}/record", new JobClosed(Sheet.Check.Clock, "", "", ""));
        }
        else
        {
            Refuse(new JobProblem("closing", "a valve is not in band any more, or work was begun", "look at the verdict, and close the job below"));
        }

        Look();
    }

    private async Task ReopenAsync()
    {
        await AddAsync(Reopen!, $"/jobs/{Id}/close", new JobReopened());
        Look();
    }

    private async Task SecondAsync()
    {
        await StartSecondAsync(Second!);
        Look();
    }

    private async Task StartSecondAsync(ActionForm form)
    {
        (Guid? round, IReadOnlyList<JobProblem> problems) = await NextRound.AfterAsync(Bench, Job!, form.Action, Visit.Device);
        if (round is not { } next)
        {
            Refuse(problems);
            return;
        }

        StoredJob started = (await Bench.Jobs.FindAsync(next))!;
        Navigation.NavigateTo(StageLink.Next(next, started.Summary.Stage));
    }
}
