using Shimwright.Bench.Contents;
using Shimwright.Bench.InMemory;
using Shimwright.Bench.InStep;

namespace Shimwright.Bench.Following;

/// <summary>
/// Keeps a bench in memory line by line, and where it follows another bench, what was done here and what the other one has instead. What is
/// done here holds at once; the followed bench has the last word.
/// </summary>
public sealed partial class Follower
{
    /// <summary>
    /// How far ahead a version counts that the followed bench has not taken yet: no page that shows it can be taken for one that shows what
    /// the other bench has.
    /// </summary>
    internal const int Leap = 1_000_000;

    /// <summary>The version of the followed bench upon which a version here builds.</summary>
    internal static int Shared(int version) => version % Leap;

    /// <summary>How many changes of this bench come upon that.</summary>
    internal static int Own(int version) => version / Leap;

    private readonly Ahead _ahead = new();
    private readonly SortedDictionary<int, Deed> _deeds = [];
    private readonly SortedDictionary<int, LeftDeed> _left = [];
    private readonly Generations _generations = new();
    private readonly List<KeptLine> _waiting = [];
    private readonly Func<IReadOnlyList<KeptLine>, Task> _put;
    private readonly TimeProvider _time;
    private Deed? _doing;
    private bool _isStepping;

    /// <summary>Opens a bench from its lines.</summary>
    /// <param name="lines">The lines, in the order of their keys.</param>
    /// <param name="put">Puts lines where they last, all or none.</param>
    /// <param name="time">The clock.</param>
    /// <exception cref="FormatException">A line cannot be read.</exception>
    public Follower(IReadOnlyList<KeptLine> lines, Func<IReadOnlyList<KeptLine>, Task> put, TimeProvider time)
    {
        ArgumentNullException.ThrowIfNull(lines);
        (_put, _time) = (put, time);
        ReadBeside(lines);
        Memory = NewMemory(KeptLines.Read(lines));
    }

    /// <summary>The bench as it is worked with; what is done to it here is not told to the other one.</summary>
    public MemoryBench Memory { get; }

    /// <summary>What is followed; null where the bench stands alone.</summary>
    public Followed? Followed { get; private set; }

    /// <summary>How much was done here that the followed bench has not answered yet.</summary>
    public int Pending => _deeds.Count;

    /// <summary>What the followed bench has not taken, in order.</summary>
    public IReadOnlyCollection<LeftDeed> Left => _left.Values;

    /// <summary>Whether something could not be kept: the bench in memory is then ahead of what lasts, and has to be opened again.</summary>
    public bool HasFailed { get; private set; }

    /// <summary>What was done here to a job that the followed bench has not answered yet.</summary>
    /// <param name="job">The job.</param>
    /// <returns>The deeds.</returns>
    public IEnumerable<Deed> PendingOf(Guid job) => _deeds.Values.Where(d => d.OfJob == job);

    /// <summary>Takes over lines that another page of the same browser has kept.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="beside">All lines that are no rows; asked where the other page has gone a step.</param>
    /// <exception cref="FormatException">A line cannot be read.</exception>
    public async Task FollowAsync(IReadOnlyList<KeptLine> lines, Func<Task<IReadOnlyList<KeptLine>>> beside)
    {
        ArgumentNullException.ThrowIfNull(lines);
        ArgumentNullException.ThrowIfNull(beside);
        if (lines.Any(l => l.Key == FollowLines.Step))
        {
            _ahead.Clear();
            _deeds.Clear();
            _left.Clear();
            ReadBeside(await beside());
        }
        else
        {
            ReadBeside(lines);
        }

        Memory.Leap = Followed is null ? 1 : Leap;
        KeptLine[] rows = [.. lines.Where(l => KeptLines.IsRow(l.Key))];
        Memory.Replace(KeptLines.Read(rows), KeptLines.Rows(rows.Where(l => l.Line is null).Select(l => l.Key)));
    }

    /// <summary>Does something, and remembers it to be told where it changes anything.</summary>
    internal async Task<T> DoAsync<T>(Func<DateTime, Task<Deed?>> deed, Func<Task<T>> work, bool isKeptElsewhere = false)
    {
        if (Followed is null)
        {
            return await work();
        }

        Deed? doing = await deed(_time.GetUtcNow().UtcDateTime);
        try
        {
            _doing = doing;
            T answer = await work();
            if (isKeptElsewhere && _doing is { } kept && _deeds.Values.All(d => d.Id != kept.Id))
            {
                Remember();
                await KeepAsync();
            }

            return answer;
        }
        finally
        {
            _doing = null;
        }
    }

    /// <summary>The number of a job's last entry on the followed bench that whoever has seen an entry here has seen.</summary>
    internal int SeenThere(Guid job, int seen) => Math.Min(seen, _ahead.LastOf(job) ?? int.MaxValue);

    /// <summary>The same of the drawer.</summary>
    internal int? SeenThere(int? entry) => entry is { } seen ? Math.Min(seen, _ahead.LastEntry ?? int.MaxValue) : null;

    /// <summary>What whoever has seen an entry on a page that was made before the last step has seen of the job as it is numbered now.</summary>
    internal int SeenHere(Guid job, int seen) => _generations.Now(job, seen);

    /// <summary>The same of the drawer.</summary>
    internal int? SeenHere(int? entry) => entry is { } seen ? _generations.Now(Guid.Empty, seen) : null;

    private MemoryBench NewMemory(BenchContents contents) => new(_time, contents, Take, KeepAsync) { Leap = Followed is null ? 1 : Leap };

    private void Take(BenchContents change)
    {
        Remember();
        IReadOnlyList<KeptLine> lines = KeptLines.Of(change, Memory.Contents);
        if (Followed is not null)
        {
            _waiting.AddRange(_ahead.Note(lines, change, Memory.Contents));
        }

        _waiting.AddRange(lines);
    }

    private void Remember()
    {
        if (_doing is { } deed)
        {
            int number = _deeds.Count == 0 ? 1 : _deeds.Keys.Last() + 1;
            _deeds.Add(number, deed);
            _waiting.Add(FollowLines.OfDeed(number, deed));
            _doing = null;
        }
    }

    /// <summary>A step is kept as a whole, at its end.</summary>
    private Task KeepAsync() => _waiting.Count == 0 || _isStepping ? Task.CompletedTask : PutAsync();

    private async Task PutAsync()
    {
        if (HasFailed)
        {
            throw new InvalidOperationException("What came before is not kept either.");
        }

        KeptLine[] lines = [.. _waiting];
        _waiting.Clear();
        try
        {
            await _put(lines);
        }
        catch
        {
            HasFailed = true;
            throw;
        }
    }

    private void ReadBeside(IReadOnlyList<KeptLine> lines)
    {
        foreach (KeptLine line in lines.Where(l => l.Line is not null))
        {
            if (line.Key == FollowLines.Step)
            {
                Followed = line.Line!.Length == 0 ? null : FollowLines.ReadFollowed(line.Line);
            }
            else if (line.Key.StartsWith(FollowLines.Base, StringComparison.Ordinal))
            {
                _ahead.Read(line.Key[FollowLines.Base.Length..], line.Line!);
            }
            else if (FollowLines.IsDeed(line.Key, out int deed))
            {
                _deeds[deed] = StepJson.ReadDeed(line.Line!);
            }
            else if (FollowLines.IsLeft(line.Key, out int left))
            {
                _left[left] = FollowLines.ReadLeft(line);
            }
        }
    }
}
