using System.Globalization;
using System.Runtime.InteropServices.JavaScript;
using Shimwright.Bench;
using Shimwright.Bench.Following;
using Shimwright.Pages;
using Shimwright.Pages.Files;
using Shimwright.Pages.Shell;
using Shimwright.Pages.Visits;
using Shimwright.Pocket.Here;
using Shimwright.Pocket.Keeping;

namespace Shimwright.Pocket.Gate;

/// <summary>What worker.js may ask. One thing is asked at a time.</summary>
internal static partial class PocketGate
{
    private const string Device = "device";
    private static readonly Uri Base = new("http://pocket.invalid/");

    private static readonly Dictionary<string, VisitFile> Files = [];
    private static readonly PocketSteps Steps = new();
    private static ServiceProvider? _services;
    private static PocketKeep? _keep;
    private static string _device = "";
    private static byte[] _fetched = [];

    /// <summary>Opens the bench that the browser holds. Asked again where something could not be kept: what is not kept is then not shown either.</summary>
    /// <param name="home">The address of the folder that the bench was loaded from.</param>
    /// <returns>Whether the browser had thrown its store away, and the bench was put there again.</returns>
    [JSExport]
    internal static async Task<bool> OpenAsync(string home)
    {
        TimeProvider time = TimeProvider.System;
        (PocketKeep keep, bool wasEmptied) = await PocketKeep.OpenAsync(time, _keep);
        FollowedBench bench = new(keep.Follower, new PocketPictures(keep.Follower.Memory, time), new PocketCopies(keep.Follower.Memory.Copies));
        (Steps.Follower, Steps.Bench) = (keep.Follower, bench);
        PocketState state = _services?.GetService<PocketState>() ?? new();
        state.Home = home;
        state.CopiedAt = await BrowserStore.NoteAsync(PocketState.CopiedNote) is { } at ? DateTime.Parse(at, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind) : null;
        _device = await BrowserStore.NoteAsync(Device) ?? await NewDeviceAsync();
        _services = new ServiceCollection().AddSingleton(time).AddSingleton<IBench>(bench).AddSingleton(state).AddSingleton(Steps)
            .AddVisitedBenchPages(PocketHost.Pages(state, Steps, time)).BuildServiceProvider();
        _keep = keep;
        return wasEmptied;
    }

    /// <summary>Looks what other pages of this browser have kept meanwhile.</summary>
    [JSExport]
    internal static Task FollowAsync() => _keep!.FollowAsync();

    /// <summary>Hands over a file that comes with the form that is sent next.</summary>
    [JSExport]
    internal static void Attach(string field, string name, byte[] content) => Files[field] = new(name, content);

    /// <summary>Visits a page, or sends a form of it.</summary>
    /// <param name="address">Path and query.</param>
    /// <param name="form">The fields of the form; null where none is sent.</param>
    /// <param name="here">What the browser says of its store.</param>
    /// <returns>How it ended, where it leads on, and the page, each on a line of its own.</returns>
    [JSExport]
    internal static async Task<string> VisitAsync(string address, string? form, string here)
    {
        _services!.GetRequiredService<PocketState>().Hear(here);
        SentForm? sent = form is null ? null : new(StoreText.Pairs(form), new Dictionary<string, VisitFile>(Files));
        Files.Clear();
        VisitAnswer answer = await _services!.GetRequiredService<PageVisits>().VisitAsync(new(new Uri(Base, address), DeviceHere, sent) { FetchesParts = true });
        return string.Create(CultureInfo.InvariantCulture, $"{answer.Outcome}\n{answer.Next?.PathAndQuery}{answer.Next?.Fragment}\n{answer.Html}");
    }

    /// <summary>Whether the last that was sent could not be kept.</summary>
    [JSExport]
    internal static bool HasFailed() => _keep!.HasFailed;

    /// <summary>Fetches a file.</summary>
    /// <param name="address">Path and query.</param>
    /// <returns>Its media type and its name; empty where no file lies there. What is in it is asked for by <see cref="Fetched"/>.</returns>
    [JSExport]
    internal static async Task<string> FetchAsync(string address)
    {
        IBench bench = _services!.GetRequiredService<IBench>();
        TimeProvider time = _services!.GetRequiredService<TimeProvider>();
        if (await FileAddresses.FetchAsync(bench, new Uri(Base, address), time, _services!.GetRequiredService<HostPages>().Reach(Base).Start) is not { } file)
        {
            return "";
        }

        _fetched = file.Content;
        if (address == PocketState.ArchiveAddress)
        {
            DateTime now = time.GetUtcNow().UtcDateTime;
            _services!.GetRequiredService<PocketState>().CopiedAt = now;
            await BrowserStore.SetNoteAsync(PocketState.CopiedNote, now.ToString("O", CultureInfo.InvariantCulture));
        }

        return $"{file.ContentType}\n{file.Name}";
    }

    [JSExport]
    internal static byte[] Fetched() => _fetched;

    /// <summary>Begins a step with the bench that the page came from.</summary>
    /// <returns>The name by which this device calls itself there; empty where no bench is followed.</returns>
    [JSExport]
    internal static string StepBegin() => Steps.Begin() ? _device : "";

    /// <summary>What is to be sent next; empty where nothing is.</summary>
    [JSExport]
    internal static Task<string> StepNextAsync() => Steps.Round.NextAsync();

    /// <summary>Hears what came of what was sent.</summary>
    [JSExport]
    internal static bool StepHear(string answer) => Steps.Round.Hear(answer);

    /// <summary>The query that asks for what has changed; empty where all of it is here.</summary>
    [JSExport]
    internal static string StepQuery() => Steps.Round.Query();

    /// <summary>Hears what has changed.</summary>
    /// <returns>The pictures that are new, a line each; null where it is another bench.</returns>
    [JSExport]
    internal static string? StepAdd(string changes) => Steps.Round.Add(changes) is { } pictures ? string.Join('\n', pictures) : null;

    /// <summary>Keeps a picture that has come.</summary>
    [JSExport]
    internal static Task StepPictureAsync(string picture) => PocketSteps.KeepAsync(picture);

    /// <summary>Takes over what was heard.</summary>
    [JSExport]
    internal static Task<bool> StepTakeAsync() => Steps.TakeAsync(TimeProvider.System.GetUtcNow().UtcDateTime);

    /// <summary>Notes why a step did not go through.</summary>
    [JSExport]
    internal static void StepFail(string why) => Steps.Fail(why);

    /// <summary>What stands beside what is entered here: once it is in step with a bench, what that one writes.</summary>
    private static string DeviceHere => _keep?.Follower.Followed?.Device is { Length: > 0 } there ? there : _device;

    private static async Task<string> NewDeviceAsync()
    {
        string device = Guid.NewGuid().ToString("N");
        await BrowserStore.SetNoteAsync(Device, device);
        return device;
    }
}
