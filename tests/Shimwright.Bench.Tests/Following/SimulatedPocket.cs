using System.Globalization;
using Shimwright.Bench.Contents;
using Shimwright.Bench.Devices;
using Shimwright.Bench.Following;
using Shimwright.Bench.InStep;
using static Shimwright.Testing.Benches.SampleBench;

namespace Shimwright.Bench.Tests.Following;

/// <summary>Where a wire is cut.</summary>
internal enum Cut
{
    None,

    /// <summary>Nothing of what is sent arrives.</summary>
    BeforeArrival,

    /// <summary>The bench is ended after some deeds.</summary>
    InTheMiddle,

    /// <summary>The bench is killed after it has done a deed and before it has written down what became of it.</summary>
    BeforeWrittenDown,

    /// <summary>The bench has done it all, and its answer is lost.</summary>
    BeforeAnswer,

    /// <summary>The phone is ended before what it has fetched is kept.</summary>
    BeforeTaking,
}

/// <summary>A phone away from the bench: the real code over a store of keys and text and a wire that can be cut. Its clock is wrong by some minutes.</summary>
internal sealed class SimulatedPocket
{
    private readonly SortedDictionary<string, string> _store;
    private readonly List<KeptLine> _told = [];
    private readonly TimeProvider _time;
    private IBench _shop;
    private readonly Func<DateTime> _now;
    private readonly DeviceRole _role;

    public SimulatedPocket(IBench shop, TimeProvider shopTime, string device, TimeSpan off, DeviceRole role = DeviceRole.Owner, SortedDictionary<string, string>? store = null)
    {
        _store = store ?? new(StringComparer.Ordinal);
        (_shop, Device, _role) = (shop, device, role);
        _now = () => shopTime.GetUtcNow().UtcDateTime;
        _time = new WrongClock(shopTime, off);
        Open();
    }

    /// <summary>What the bench writes beside what comes from here.</summary>
    public string Device { get; }

    public Follower Follower { get; private set; } = null!;

    public IBench Bench { get; private set; } = null!;

    public BenchContents Contents => Follower.Memory.Contents();

    /// <summary>What would be read if it were opened now.</summary>
    public BenchContents Stored => new Follower([.. _store.Select(l => new KeptLine(l.Key, l.Value))], _ => Task.CompletedTask, _time).Memory.Contents();

    /// <summary>Whether the last step brought anything to see that was not done here.</summary>
    public bool HasNews { get; private set; }

    /// <summary>How often something was put into the store.</summary>
    public int Puts { get; private set; }

    /// <summary>Whether the store takes nothing.</summary>
    public bool IsFull { get; set; }

    /// <summary>Another bench stands at the address of the one that was followed.</summary>
    public void MeetAnother(IBench shop) => _shop = shop;

    /// <summary>Another page of the same browser, as it was opened now.</summary>
    public SimulatedPocket AnotherPage() => new(_shop, _time, Device, TimeSpan.Zero, _role, _store);

    /// <summary>Tells another page what was kept here since it was told last, as the browser's store does: quiet lines are not told.</summary>
    public async Task TellAsync(SimulatedPocket page)
    {
        KeptLine[] lines = [.. _told.OrderBy(l => l.Key, StringComparer.Ordinal)];
        _told.Clear();
        await page.Follower.FollowAsync(lines, () => Task.FromResult<IReadOnlyList<KeptLine>>([.. _store.Where(l => !KeptLines.IsRow(l.Key)).Select(l => new KeptLine(l.Key, l.Value))]));
    }

    /// <summary>Begins anew from what is kept, as after a kill.</summary>
    public void Open()
    {
        Follower = new([.. _store.Select(l => new KeptLine(l.Key, l.Value))], PutAsync, _time);
        Bench = new FollowedBench(Follower, Follower.Memory.Pictures, Follower.Memory.Copies);
    }

    /// <summary>Goes a step.</summary>
    /// <param name="cut">Where the wire is cut.</param>
    /// <param name="at">After how many deeds, where it is in the middle.</param>
    /// <param name="meanwhile">What is done on the phone while it waits for the bench.</param>
    /// <returns>Whether it went through.</returns>
    public async Task<bool> StepAsync(Cut cut = Cut.None, int at = 0, Func<Task>? meanwhile = null)
    {
        StepRound round = new(Follower, PictureAsync);
        while (await round.NextAsync() is { Length: > 0 } message)
        {
            if (cut == Cut.BeforeArrival)
            {
                return false;
            }

            StepSent read = StepJson.ReadSent(System.Text.Encoding.UTF8.GetBytes(message))!;
            if (cut == Cut.BeforeWrittenDown)
            {
                await Assert.ThrowsAnyAsync<IOException>(() => StepDesk.HearAsync(new DyingShop(_shop, Math.Min(at, read.Deeds.Count - 1)), read, Device, _role, _now(), cancel: Cancel));
                return false;
            }

            StepAnswered answer = await StepDesk.HearAsync(_shop, cut == Cut.InTheMiddle ? read with { Deeds = [.. read.Deeds.Take(at)] } : read, Device, _role, _now(), cancel: Cancel);
            if (cut is Cut.InTheMiddle or Cut.BeforeAnswer)
            {
                return false;
            }

            if (!round.Hear(StepJson.Write(answer)))
            {
                throw new InvalidOperationException("Another bench has answered.");
            }
        }

        await (meanwhile?.Invoke() ?? Task.CompletedTask);
        while (round.Query() is { Length: > 0 } query)
        {
            if (round.Add(StepJson.Write(await StepDesk.ChangesAsync(_shop, MarkOf(query), Cancel))) is null)
            {
                throw new InvalidOperationException("Another bench has answered.");
            }
        }

        if (cut == Cut.BeforeTaking)
        {
            Open();
            return false;
        }

        HasNews = await round.TakeAsync();
        return true;
    }

    /// <summary>What becomes of a picture on its way.</summary>
    public Func<KeptPicture, KeptPicture> Spoil { get; set; } = p => p;

    private async Task<KeptPicture?> PictureAsync(Guid id) => await Follower.Memory.PictureAsync(id, Cancel) is { } picture ? Spoil(picture) : null;

    private static StepMark MarkOf(string query)
    {
        string[] values = [.. query.Split('&').Select(v => v.Split('=')[1])];
        return new(values[0], long.Parse(values[1], CultureInfo.InvariantCulture), int.Parse(values[2], CultureInfo.InvariantCulture), int.Parse(values[3], CultureInfo.InvariantCulture));
    }

    private Task PutAsync(IReadOnlyList<KeptLine> lines)
    {
        if (IsFull)
        {
            return Task.FromException(new IOException("full"));
        }

        Puts++;

        foreach (KeptLine line in lines)
        {
            if (!line.IsQuiet && (line.Line is not null || KeptLines.IsRow(line.Key)))
            {
                _told.RemoveAll(l => l.Key == line.Key);
                _told.Add(line);
            }

            if (line.Line is null)
            {
                _store.Remove(line.Key);
            }
            else
            {
                _store[line.Key] = line.Line;
            }
        }

        return Task.CompletedTask;
    }

    private sealed class WrongClock(TimeProvider right, TimeSpan off) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => right.GetUtcNow() + off;
    }
}
