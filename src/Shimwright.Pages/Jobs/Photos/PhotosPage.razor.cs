using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Shimwright.Bench.Photos;
using Shimwright.Jobs.Facts;
using Shimwright.Jobs.Members;
using Shimwright.Jobs.Rules;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;

namespace Shimwright.Pages.Jobs.Photos;

/// <summary>The photos of a job: taking one in, saying what it shows, putting it away and back.</summary>
public sealed partial class PhotosPage : JobPage
{
    private IReadOnlyList<PhotoKept> _here = [], _away = [];

    [SupplyParameterFromForm(FormName = "photo")]
    private NewPhoto? Photo { get; set; }

    [SupplyParameterFromForm(Name = "About")]
    private PhotoAbout? About { get; set; }

    private string Here => $"/jobs/{Id}/photos";

    protected override async Task OnInitializedAsync()
    {
        await base.OnInitializedAsync();
        await LookAsync();
    }

    private async Task LookAsync()
    {
        if (Job is null)
        {
            return;
        }

        ILookup<bool, PhotoKept> photos = (await PhotoList.OfAsync(Bench, Job)).ToLookup(p => p.Removed);
        (_here, _away) = ([.. photos[false]], [.. photos[true]]);
    }

    private async Task AddPhotoAsync()
    {
        IBrowserFile? file = Photo!.Camera is { Size: > 0 } camera ? camera : Photo.File;
        PhotoKept fact = new(Photo.Action, Photo.Shows ?? "other", Photo.Caption?.Trim() ?? "", Photo.InRecord, Removed: false);
        IReadOnlyList<JobProblem> problems = SheetRules.ProblemsOf(Sheet, fact);
        if (problems.Count > 0)
        {
            Refuse(problems);
            return;
        }

        var arrived = ArrivedPicture.Photo(await SentFile.ReadAsync(file, Visit.Left) ?? []);
        if (arrived.Picture is not { } picture)
        {
            Refuse(arrived.Problem!);
            return;
        }

        // The picture first: a fact without it would show nothing. Sent twice, it is kept once, as the fact is.
        await Bench.Pictures.AddAsync(Photo.Action, Id, picture, Visit.Left);
        await AddAsync(Photo, Here, fact);
        await LookAsync();
    }

    private async Task ChangeAsync()
    {
        if (Sheet.Photos.All(p => p.Photo != About!.Id))
        {
            Refuse(new JobProblem("photo", "the job has no such photo", "load the page again"));
            return;
        }

        await AddAsync(About!, Here, new PhotoKept(About!.Id, About.Shows ?? "other", About.Caption?.Trim() ?? "", About.InRecord, Removed: About.Do == "remove"));
        await LookAsync();
    }

    private class PhotoForm : ActionForm
    {
        public string? Shows { get; set; }

        public string? Caption { get; set; }

        public bool InRecord { get; set; }
    }

    private sealed class NewPhoto : PhotoForm
    {
        public IBrowserFile? Camera { get; set; }

        public IBrowserFile? File { get; set; }
    }

    private sealed class PhotoAbout : PhotoForm
    {
        public Guid Id { get; set; }

        public string? Do { get; set; }
    }
}
