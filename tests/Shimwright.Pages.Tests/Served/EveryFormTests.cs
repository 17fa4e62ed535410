using System.Reflection;
using System.Text;
using Microsoft.AspNetCore.Components;
using Shimwright.Jobs.Fitting;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Tests.Samples;
using Shimwright.Pages.Tests.Visits;
using Shimwright.Testing;
using Shimwright.Testing.Pictures;
using Shimwright.Testing.Workshop;

namespace Shimwright.Pages.Tests.Served;

/// <summary>Every form of every page does the same with and without a server: what is kept, what is refused and why, and where it leads.</summary>
public sealed class EveryFormTests
{
    /// <summary>Forms that stand in many places are sent so often.</summary>
    private const int TimesEach = 2;

    private const string NewEngine = "/engines/new?at=summary&name=Any&train=finger-follower&cylinders=2&banks=line&valves=1%2B1&access=side&intakeLow=0.1&intakeHigh=0.2&exhaustLow=0.2&exhaustHigh=0.3";

    [Fact, Long]
    public async Task Forms_OfEveryPage_DoWhatTheyDoOnTheServer()
    {
        await using TwoBenches benches = new();
        await benches.InitializeAsync();
        Dictionary<int, int> endings = [];
        foreach (TwinForm form in await FilledByHandAsync(benches))
        {
            await SendAsync(benches, form, endings);
        }

        Dictionary<string, int> sent = [];
        foreach (PageToSee page in PageList.All.Where(p => !p.IsOfTheStore))
        {
            await WalkAsync(benches, page, sent, endings);
        }

        // The walk is worth something only where much is kept and much refused.
        Assert.True(endings.GetValueOrDefault(302) >= 40 && endings.GetValueOrDefault(422) >= 20 && endings.GetValueOrDefault(409) >= 1, string.Join(' ', endings));
        string[] never = [.. AskedFor().Where(f => f.Page != typeof(Settings.CopiesPage) && !benches.Forms.HasCome(f.Form, f.Name)).Select(f => $"{f.Page.Name}.{f.Name}")];
        Assert.True(never.Length == 0, $"No form came for {string.Join(", ", never)}.");
    }

    /// <summary>In a part of a form the server reads texts only: of a number that cannot be read there it makes nothing of the whole form.</summary>
    [Fact]
    public void Parts_OfForms_HoldTextsOnly() =>
        Assert.All(AskedFor().SelectMany(f => PartsOf(f.Form)).Distinct().SelectMany(p => p.GetProperties()).Where(p => p.CanWrite), p =>
            Assert.True(p.PropertyType == typeof(string) || PartsOf(p.DeclaringType!).Contains(p.PropertyType), $"{p.DeclaringType!.Name}.{p.Name}"));

    private static async Task WalkAsync(TwoBenches benches, PageToSee page, Dictionary<string, int> sent, Dictionary<int, int> endings)
    {
        foreach (string name in (await benches.FormsOfAsync(page.Address)).Select(f => f.Name).Distinct().ToArray())
        {
            string kind = $"{page.Route} {name.Split('-')[0]}";
            if (sent.GetValueOrDefault(kind) >= TimesEach)
            {
                continue;
            }

            sent[kind] = sent.GetValueOrDefault(kind) + 1;
            foreach (Func<FilledForm, FilledForm> fill in new Func<FilledForm, FilledForm>[] { f => f, f => f.Filled() })
            {
                // What was sent before may have taken the form away.
                if ((await benches.FormsOfAsync(page.Address)).FirstOrDefault(f => f.Name == name) is { } form)
                {
                    await SendAsync(benches, form.Filled(fill), endings);
                }
            }
        }
    }

    private static async Task<Ending> SendAsync(TwoBenches benches, TwinForm form, Dictionary<int, int> endings)
    {
        Ending ending = await benches.SendAsync(form);
        endings[ending.Status] = endings.GetValueOrDefault(ending.Status) + 1;
        return ending;
    }

    /// <summary>What only a person fills in sensibly.</summary>
    private static async Task<IReadOnlyList<TwinForm>> FilledByHandAsync(TwoBenches benches)
    {
        byte[] counts = Encoding.UTF8.GetBytes("diameter,thickness,count,place\n9.48,2.35,7,A9\n9.48,2.65,2,\n"), wrong = Encoding.UTF8.GetBytes("diameter,thickness\nx\n");
        TwinForm job = await FormAsync(benches, _ => "/jobs/take-in", "take-in");
        TwinForm file = await FormAsync(benches, _ => "/drawer/take-in", "look");
        TwinForm photo = await FormAsync(benches, w => $"/jobs/{w.JobAt(JobStage.Closed)}/photos", "photo");
        TwinForm workshop = await FormAsync(benches, _ => "/settings/workshop", "workshop");
        TwinForm look = (await FormAsync(benches, _ => "/settings", "look")).Filled(f => f.With(("Look.Unit", "in"), ("Look.Currency", "USD")));
        return
        [
            job.Filled(f => f.WithFile("Sent.File", "job.json", DemoFile.Read("03-leave-alone.json"))),
            job.Filled(f => f.WithFile("Sent.File", "job.json", wrong)),
            job.Filled(f => f.WithFile("Sent.File", "job.json", [])),
            file.Filled(f => f.WithFile("Look.File", "counts.csv", counts)),
            file.Filled(f => f.WithFile("Look.File", "counts.csv", wrong)),
            file.Filled(f => f.With(("_handler", "take"), ("Take.Action", "01234567-89ab-cdef-0123-456789abcdef"), ("Take.Text", Encoding.UTF8.GetString(counts)))),
            (await FormAsync(benches, Person, "file")).Filled(f => f.WithFile("Sent.File", "trials.csv", DemoFile.Read("feel-trials.csv"))),
            (await FormAsync(benches, Person, "trial")).Filled(f => f.With(("Tap.Gap", "0.2"), ("Tap.Thickness", "0.18"), ("Tap.Feel", "light"))),
            (await FormAsync(benches, Measure, "tap")).Filled(f => f.With(("Tap.Thickness", "0.13"), ("Tap.Leaves", "2"), ("Tap.Feel", "firm"))),
            (await FormAsync(benches, Measure, "value")).Filled(f => f.With(("Value.Value", "0,16"))),
            (await FormAsync(benches, w => $"/jobs/{w.JobAt(JobStage.Recheck)}/fit?edit=I1", "fit-I1")).Filled(f => f.With(("Fit.To", "2.5"), ("Fit.ToBy", "micrometer"))),
            // Before all that is missing is entered in one tap.
            (await FormAsync(benches, Shims, "shim")).Filled(f => f.With(("Shim.Thickness", "100"), ("Shim.Unit", "thou"), ("Shim.By", "micrometer"))),
            await FormAsync(benches, Shims, "marked"),
            await FormAsync(benches, w => $"/jobs/{w.Failed}/close", "second"),
            await FormAsync(benches, w => $"/jobs/{w.Dry}/dry", "go-on"),
            await FormAsync(benches, _ => NewEngine, "save"),
            await FormAsync(benches, _ => "/due/scorecard", "seating"),
            (await FormAsync(benches, Measure, "suspected")).Filled(f => f.With(("Suspected.Cause", "dust"))),
            photo.Filled(f => f.WithFile("Photo.File", "photo.jpg", SamplePicture.Jpeg()).With(("Photo.Caption", "The shims as they came out"), ("Photo.InRecord", "true"))),
            photo.Filled(f => f.WithFile("Photo.Camera", "photo.jpg", wrong)),
            workshop.Filled(f => f.WithFile("Sent.Logo", "logo.png", SamplePicture.Png())),
            workshop.Filled(f => f.WithFile("Sent.Logo", "logo.png", wrong)),
            // Unit and currency, then the same once more from a page that is old by then.
            look,
            look,
        ];
    }

    private static string Measure(FullWorkshop workshop) => $"/jobs/{workshop.JobAt(JobStage.Measure)}/measure";

    private static string Shims(FullWorkshop workshop) => $"/jobs/{workshop.JobAt(JobStage.Shims)}/shims";

    private static string Person(FullWorkshop workshop) => $"/feel/{workshop.Person}";

    private static async Task<TwinForm> FormAsync(TwoBenches benches, Func<FullWorkshop, string> page, string name) =>
        (await benches.FormsOfAsync(page)).FirstOrDefault(f => f.Name == name) ?? throw new InvalidOperationException($"There is no form {name}.");

    /// <summary>What pages and their parts ask of forms.</summary>
    private static IEnumerable<(Type Page, Type Form, string Name)> AskedFor() =>
        typeof(Document).Assembly.GetTypes()
            .SelectMany(t => t.GetProperties(BindingFlags.Instance | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly))
            .Select(p => (p, p.GetCustomAttribute<SupplyParameterFromFormAttribute>()))
            .Where(p => p.Item2 is not null)
            .Select(p => (p.p.DeclaringType!, p.p.PropertyType, p.Item2!.Name ?? p.p.Name));

    private static IEnumerable<Type> PartsOf(Type form) => form.GetProperties().Where(p => p.CanWrite)
        .Select(p => p.PropertyType.IsGenericType ? p.PropertyType.GetGenericArguments()[0] : p.PropertyType)
        .Where(t => t.Assembly == typeof(Document).Assembly);
}
