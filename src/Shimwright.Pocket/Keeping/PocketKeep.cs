using Shimwright.Bench.Contents;
using Shimwright.Bench.Following;

namespace Shimwright.Pocket.Keeping;

/// <summary>Keeps a bench in memory in step with the browser's database: what it holds lies there before anything is answered.</summary>
internal sealed class PocketKeep
{
    private const string StoreNote = "store";

    /// <summary>Whether something could not be kept: the bench in memory is then ahead, and has to be opened again.</summary>
    public bool HasFailed => Follower.HasFailed;

    /// <summary>The bench, and the other one that it follows, if any.</summary>
    public Follower Follower { get; private init; } = null!;

    /// <summary>The store that it lies in: another one has another name.</summary>
    public string Store { get; private init; } = "";

    /// <summary>Opens the bench that the browser holds, or a new one.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="before">
    /// The bench as it was held until now, or null. Where the browser has thrown its store away meanwhile that goes back there: nothing is
    /// lost but the pictures, which were in the store alone.
    /// </param>
    /// <returns>The bench, and whether the store had been thrown away.</returns>
    public static async Task<(PocketKeep Keep, bool WasEmptied)> OpenAsync(TimeProvider time, PocketKeep? before)
    {
        string lines = await BrowserStore.OpenAsync();
        string? store = await BrowserStore.NoteAsync(StoreNote);
        bool wasEmptied = before is not null && store != before.Store;
        if (store is null)
        {
            store = before?.Store ?? Guid.NewGuid().ToString("N");
            await BrowserStore.SetNoteAsync(StoreNote, store);
        }

        if (wasEmptied)
        {
            await PutAsync(before!.Follower.Lines());
            lines = await BrowserStore.OpenAsync();
        }

        return (new() { Store = store, Follower = new(StoreText.Read(lines), PutAsync, time) }, wasEmptied);
    }

    /// <summary>Looks what other pages of the same browser have kept.</summary>
    /// <returns>Whether there was anything.</returns>
    public async Task<IReadOnlyList<KeptLine>> FollowAsync()
    {
        if (await BrowserStore.SinceAsync() is not { Length: > 0 } text)
        {
            return [];
        }

        IReadOnlyList<KeptLine> lines = StoreText.Read(text);
        await Follower.FollowAsync(lines, async () => StoreText.Read(await BrowserStore.BesideAsync()));
        return lines;
    }

    private static Task PutAsync(IReadOnlyList<KeptLine> lines) => BrowserStore.PutAsync(StoreText.Write(lines));
}
