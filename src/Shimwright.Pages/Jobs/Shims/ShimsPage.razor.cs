using Microsoft.AspNetCore.Components;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Results;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Jobs.Shims;

/// <summary>The shims found: one valve after the other, the next empty one first.</summary>
public sealed partial class ShimsPage : JobPage
{
    private ShimEntry _entry = null!;
    private JobRecord? _lastTime;
    private ThicknessFound[] _asLeft = [];

    [SupplyParameterFromQuery(Name = "valve")]
    private string? Asked { get; set; }

    [SupplyParameterFromForm(FormName = "shim")]
    private ShimForm? Shim { get; set; }

    [SupplyParameterFromForm(FormName = "marked")]
    private ShimForm? Marked { get; set; }

    [SupplyParameterFromForm(FormName = "as-left")]
    private ActionForm? AsLeft { get; set; }

    private static IReadOnlyList<string> Instruments { get; } = ["micrometer", "calliper", "marked"];

    private string Address => $"/jobs/{Id}/shims";

    private string? Typed => Shim?.Thickness ?? (_entry.Known is { } known ? Lengths.Field(known.Thickness) : null);

    private string By => Shim?.By ?? _entry.By;

    protected override async Task OnInitializedAsync()
    {
        await base.OnInitializedAsync();
        if (Job is null)
        {
            return;
        }

        _lastTime = await LastTimeAsync();
        Look();
    }

    /// <summary>A form names its valve, so that what was refused is shown at the valve it was meant for.</summary>
    private void Look()
    {
        _entry = ShimEntry.For(Sheet, (Shim ?? Marked)?.Valve ?? Asked, LeftAt);
        ThicknessFound[] left = [.. _entry.Missing.Select(LeftAt).OfType<ThicknessFound>()];
        _asLeft = left.Length == _entry.Missing.Count ? left : [];
    }

    private async Task SaveAsLeftAsync()
    {
        if (_asLeft.Length == 0)
        {
            Refuse(new JobProblem("shims", "nothing is left to enter as it was last time", "enter the shim of each valve"));
            return;
        }

        await AddAsync(AsLeft!, $"/jobs/{Id}/plan", _asLeft);
        Look();
    }

    private ThicknessFound? LeftAt(string valve) =>
        _lastTime?.Valves.FirstOrDefault(v => v.Valve == valve) is { } row && (row.Fitted ?? row.Found) is { } left
            ? new(valve, left.Thickness, left.By)
            : null;

    private async Task<JobRecord?> LastTimeAsync()
    {
        if (!Sheet.Engine.Valvetrain.HasShims || Sheet.Engine.Valves.All(v => Sheet.FoundAt(v.Id) is not null))
        {
            return null;
        }

        JobSummary? before = (await Bench.Jobs.OfEngineAsync(Job!.Summary.EngineId)).FirstOrDefault(j => j is { ClosedAt: not null, DiscardedAt: null } && j.Id != Id);
        return before is null ? null : (await Bench.Jobs.FindAsync(before.Id))?.Record;
    }

    private Task SaveAsync() => SaveAsync(Shim!, Shim!.By);

    private Task SaveMarkedAsync() => SaveAsync(Marked!, "marked");

    private async Task SaveAsync(ShimForm form, string? by)
    {
        List<JobProblem> problems = [];
        double? thickness = Lengths.In(form.Unit).Read(form.Thickness, $"{form.Valve}, thickness").Note(problems);
        if (by is null || !Instruments.Contains(by))
        {
            problems.Add(new($"{form.Valve}, how it was found", "nothing was chosen", $"choose {string.Join(", ", Instruments)}"));
        }

        if (problems.Count > 0)
        {
            Refuse(problems);
        }
        else
        {
            await AddAsync(form, Address, new ThicknessFound(form.Valve ?? "", thickness!.Value, by!));
        }

        Look();
    }

    private sealed class ShimForm : ActionForm
    {
        public string? Valve { get; set; }

        public string? Thickness { get; set; }

        public string? Unit { get; set; }

        public string? By { get; set; }
    }
}
