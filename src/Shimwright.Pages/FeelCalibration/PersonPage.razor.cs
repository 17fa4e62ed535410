using Microsoft.AspNetCore.Components;
using Shimwright.Bench;
using Shimwright.Bench.FeelCalibration;
using Shimwright.Bench.Settings;
using Shimwright.Domain.FeelCalibration;
using Shimwright.Jobs.FeelCalibration;
using Shimwright.Jobs.Measures;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Jobs.Settings;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.FeelCalibration;

/// <summary>One person's trials, their fit, and taking it for the bench's feel.</summary>
public sealed partial class PersonPage : ComponentBase
{
    private StoredFeel? _person;
    private StoredSettings _stored = new(0, new BenchSettings());
    private LengthStyle _lengths = LengthStyle.Millimetres;
    private IReadOnlyList<JobProblem> _problems = [];
    private FeelCalibrationResult _result = new(FeelStatus.TooFewTrials, null, [], []);
    private CalibrationResult? _fit;

    [Parameter]
    public Guid Id { get; set; }

    [Inject]
    private IVisit Visit { get; set; } = null!;

    [Inject]
    private IBench Bench { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [SupplyParameterFromQuery(Name = "saved")]
    private string? Saved { get; set; }

    [SupplyParameterFromForm(FormName = "trial")]
    private FeelTapForm? Tap { get; set; }

    [SupplyParameterFromForm(FormName = "back")]
    private FeelBackForm? Back { get; set; }

    [SupplyParameterFromForm(FormName = "file")]
    private TrialFileForm? Sent { get; set; }

    [SupplyParameterFromForm(FormName = "rename")]
    private NameForm? Rename { get; set; }

    [SupplyParameterFromForm(FormName = "use")]
    private UseFeelForm? Use { get; set; }

    private bool IsInUse => _fit is { } fit && fit.Feel == _stored.Settings.Feel;

    private string Here => $"/feel/{Id}";

    protected override async Task OnInitializedAsync()
    {
        await LoadAsync();
        if (_person is null)
        {
            Navigation.NotFound();
        }
    }

    private async Task LoadAsync()
    {
        _stored = await Bench.Settings.CurrentAsync();
        _lengths = LengthStyle.Of(_stored.Settings);
        _person = await Bench.Feel.FindAsync(Id);
        if (_person is { Book: var book })
        {
            _result = book.Fit(_stored.Settings);
            _fit = _result.Fit is { } fit ? CalibrationResult.Of(book.Trials, fit, _result.Next) : null;
        }
    }

    private async Task TapAsync()
    {
        (FeelTried? entry, IReadOnlyList<JobProblem> problems) = Tap!.Read(_lengths);
        if (entry is null)
        {
            Refuse(problems);
        }
        else
        {
            await AddAsync(Tap, entry, "#trial");
        }
    }

    private Task BackAsync() => AddAsync(Back!, new FeelTakenBack(Back!.Number), "#trials");

    private Task RenameAsync() => AddAsync(Rename!, new FeelNamed(Rename!.Name?.Trim() ?? ""), "");

    private async Task ImportAsync()
    {
        if (await SentFile.ReadAsync(Sent!.File, Visit.Left) is not { } file)
        {
            Refuse([new("file", "no file was chosen, or the file is empty", "choose a file with the columns gap, blade and feel")]);
            return;
        }

        TrialReading reading = TrialFile.Read(file);
        if (reading.Trials is not { } trials)
        {
            Refuse(FeelWords.Of(reading.Problems));
            return;
        }

        await AddAsync(Sent, new FeelTried([.. trials.Select(TrialMade.Of)]), "#trials");
    }

    private async Task UseAsync()
    {
        if (IsInUse)
        {
            // Sent twice.
            Navigation.NavigateTo(Here + "?saved=yes");
            return;
        }

        if (_fit is null || Use!.Seen != _person!.Book.Last || Use.Version != _stored.Version
            || !await Bench.Settings.SaveAsync(_stored.Settings with { Feel = _fit.Feel }, Use.Version, Visit.Device))
        {
            await LoadAsync();
            Refuse([new("feel", "trials or settings have changed in between", "check the figures shown now and press again")]);
            Visit.Conflict();
            return;
        }

        await AddAsync(Use, new FeelUsed(_fit.Feel), "?saved=yes");
    }

    private async Task AddAsync(FeelForm form, FeelEntry entry, string place)
    {
        IReadOnlyList<JobProblem> problems = await Bench.Feel.AddAsync(Id, form.Action, Visit.Device, entry);
        if (problems.Count == 0)
        {
            Navigation.NavigateTo(Here + place);
            return;
        }

        await LoadAsync();
        Refuse(problems);
    }

    private void Refuse(IReadOnlyList<JobProblem> problems)
    {
        _problems = problems;
        Visit.Refuse();
    }
}
