using Shimwright.Bench.Contents;
using Shimwright.Bench.InMemory;

namespace Shimwright.Pocket.Keeping;

/// <summary>Keeps a bench in memory in step with the browser's database: what it holds lies there before anything is answered.</summary>
internal sealed class PocketKeep
{
    private const string StoreNote = "store";

    private readonly List<KeptLine> _waiting = [];
    private MemoryBench _bench = null!;

    /// <summary>Whether something could not be kept: the bench in memory is then ahead, and has to be opened again.</summary>
    public bool HasFailed { get; private set; }

    /// <summary>What the bench holds now, kept or not.</summary>
    public BenchContents Contents => _bench.Contents();

    /// <summary>The store that it lies in: another one has another name.</summary>
    public string Store { get; private init; } = "";

    /// <summary>Opens the bench that the browser holds, or a new one.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="before">
    /// The bench as it was held until now, or null. Where the browser has thrown its store away meanwhile that goes back there: nothing is
    /// lost but the pictures, which were in the store alone.
    /// </param>
    /// <returns>The bench, and whether the store had been thrown away.</returns>
    public static async Task<(PocketKeep Keep, MemoryBench Bench, bool WasEmptied)> OpenAsync(TimeProvider time, PocketKeep? before)
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
            await BrowserStore.PutAsync(StoreText.Write(KeptLines.Of(before!.Contents, () => new())));
            lines = await BrowserStore.OpenAsync();
        }

        PocketKeep keep = new() { Store = store };
        keep._bench = new MemoryBench(time, KeptLines.Read(StoreText.Read(lines)), keep.Take, keep.KeptAsync);
        return (keep, keep._bench, wasEmptied);
    }

    /// <summary>Looks what other pages of the same browser have kept.</summary>
    public async Task FollowAsync()
    {
        if (await BrowserStore.SinceAsync() is { Length: > 0 } lines)
        {
            _bench.Follow(KeptLines.Read(StoreText.Read(lines)));
        }
    }

    private void Take(BenchContents change) => _waiting.AddRange(KeptLines.Of(change, _bench.Contents));

    private Task KeptAsync() => _waiting.Count == 0 ? Task.CompletedTask : PutAsync();

    private async Task PutAsync()
    {
        if (HasFailed)
        {
            throw new InvalidOperationException("What came before is not kept either.");
        }

        string lines = StoreText.Write(_waiting);
        _waiting.Clear();
        try
        {
            await BrowserStore.PutAsync(lines);
        }
        catch
        {
            HasFailed = true;
            throw;
        }
    }
}
