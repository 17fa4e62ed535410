using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Shimwright.Bench;
using Shimwright.Bench.Drawer;
using Shimwright.Jobs.Tables;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Drawer;

/// <summary>Counts from a file: shown first, and imported only where every line is clean.</summary>
public sealed partial class DrawerImportPage : ComponentBase
{
    private IReadOnlyList<string> _wrong = [];
    private IReadOnlyList<ShimCount> _counts = [];
    private Dictionary<ShimSize, ShimLot> _lots = [];
    private int _changed, _newest;
    private string _text = "";

    [Inject]
    private IVisit Visit { get; set; } = null!;

    [Inject]
    private IBench Bench { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "look")]
    private LookForm? Look { get; set; }

    [SupplyParameterFromForm(FormName = "take")]
    private TakeForm? Take { get; set; }

    protected override async Task OnInitializedAsync()
    {
        if (Take is not null)
        {
            await ShowAsync(DrawerTable.Read(Encoding.UTF8.GetBytes(Take.Text ?? "")));
        }
    }

    private async Task LookAsync()
    {
        if (await SentFile.ReadAsync(Look!.File, Visit.Left) is not { } file)
        {
            Refuse(["no file was chosen, or the file is empty"]);
            return;
        }

        await ShowAsync(DrawerTable.Read(file));
    }

    private async Task TakeAsync()
    {
        if (_counts.Count == 0)
        {
            return;
        }

        DrawerResult result = await Bench.Drawer.CountAsync(_counts, new(Take!.Action, Visit.Device, Take.Seen));
        if (result.IsSaved)
        {
            Navigation.NavigateTo("/drawer");
        }
        else
        {
            Refuse([.. result.Problems.Select(p => p.ToString())]);
        }
    }

    private async Task ShowAsync(DrawerReading reading)
    {
        if (reading.Problems.Count > 0)
        {
            Refuse([.. reading.Problems.Select(p => p.ToString())]);
            return;
        }

        // Written anew: what is confirmed is what was shown, whatever else the file has.
        _text = DrawerTable.Write(reading.Lines);
        _counts = DrawerLines.Counts(reading);
        _lots = (await Bench.Drawer.LotsAsync()).ToDictionary(l => l.Size);
        _newest = _lots.Values.Select(l => l.Newest).DefaultIfEmpty().Max();
        _changed = _counts.Count(c => Lying(c.Size) != c.Count);
    }

    private int Lying(ShimSize size) => _lots.TryGetValue(size, out ShimLot? lot) ? lot.Lying : 0;

    private void Refuse(IReadOnlyList<string> wrong)
    {
        _wrong = wrong;
        Visit.Refuse();
    }

    private sealed class LookForm : ActionForm
    {
        public IBrowserFile? File { get; set; }
    }

    private sealed class TakeForm : ActionForm
    {
        public string? Text { get; set; }
    }
}
