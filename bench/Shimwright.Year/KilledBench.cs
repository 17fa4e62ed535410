using System.Diagnostics;
using System.Text.Json;
using Shimwright.Bench.Jobs;
using Shimwright.Testing.Chance;
using Shimwright.Testing.Shed;

namespace Shimwright.Year;

/// <summary>
/// The bench as a process of its own that is killed (SIGKILL) at times drawn by chance, in the middle of what it does, and started again
/// on the same file. Before every other kill the line goes dead first: what is kept from there on is kept and nobody hears of it. What was
/// sent and not answered is sent again under the same action.
/// </summary>
internal sealed class KilledBench : IShedBench, IAsyncDisposable
{
    /// <summary>Calls from one kill to the next, on average.</summary>
    private const int Every = 400;

    /// <summary>How long after a call the kill comes at most, ms.</summary>
    private const double Latest = 40;

    private readonly Lock _gate = new();
    private readonly SortedDictionary<int, (string Line, TaskCompletionSource<ShedAnswer> Answer)> _pending = [];
    private readonly string _file;
    private readonly ShedClock _clock;
    private readonly Draws _draws;
    private readonly Func<Task> _look;
    private Process _process;
    private Task _listening = Task.CompletedTask;
    private int _number;
    private int _left = Every;
    private bool _isKilled;
    private bool _isDeaf;
    private bool _isDone;

    private KilledBench(string file, ShedClock clock, int seed, Func<Task> look)
    {
        (_file, _clock, _draws, _look) = (file, clock, new(seed, 102), look);
        _process = Open();
    }

    /// <summary>How often it was killed.</summary>
    public int Kills { get; private set; }

    /// <summary>Calls that had no answer when it was killed, and were sent again.</summary>
    public int SentAgain { get; private set; }

    /// <summary>Of those, what turned out to be kept already.</summary>
    public int KeptBefore { get; private set; }

    /// <summary>Calls in all.</summary>
    public int Calls => _number;

    /// <param name="file">The SQLite file.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="seed">Draws the times.</param>
    /// <param name="look">Looks at what a killed program has left, before anything is sent again.</param>
    public static KilledBench Start(string file, ShedClock clock, int seed, Func<Task> look)
    {
        var bench = new KilledBench(file, clock, seed, look);
        bench._listening = bench.ListenAsync();
        return bench;
    }

    public async Task<ShedAnswer> AskAsync(ShedCall call)
    {
        var answer = new TaskCompletionSource<ShedAnswer>(TaskCreationOptions.RunContinuationsAsynchronously);
        lock (_gate)
        {
            string line = JsonSerializer.Serialize(new Sent(++_number, _clock.Now, call));
            _pending.Add(_number, (line, answer));
            Write(line);
            if (--_left == 0)
            {
                _left = 1 + _draws.Below(2 * Every);
                _isDeaf = Kills % 2 == 1;
                _ = KillAsync(_process, _draws.Uniform(0, Latest));
            }
        }

        return await answer.Task;
    }

    public async ValueTask DisposeAsync()
    {
        _isDone = true;
        _process.StandardInput.Close();
        await _listening;
        _process.Dispose();
    }

    private Process Open() => Process.Start(new ProcessStartInfo(Environment.ProcessPath!, ["hand", _file])
    {
        RedirectStandardInput = true,
        RedirectStandardOutput = true,
    })!;

    private void Write(string line)
    {
        try
        {
            _process.StandardInput.WriteLine(line);
            _process.StandardInput.Flush();
        }
        catch (IOException)
        {
            // Nobody is there to read it. It is sent again when somebody is.
        }
    }

    private async Task KillAsync(Process process, double after)
    {
        await Task.Delay(TimeSpan.FromMilliseconds(after));
        if (!_isDone)
        {
            _isKilled = true;
            process.Kill();
        }
    }

    private async Task ListenAsync()
    {
        while (true)
        {
            while (await _process.StandardOutput.ReadLineAsync() is { } line)
            {
                Hear(line);
            }

            await _process.WaitForExitAsync();
            if (_isDone || !_isKilled)
            {
                Fail(_isDone ? null : "The program ended by itself.");
                return;
            }

            try
            {
                await _look();
            }
            catch (InvalidOperationException wrong)
            {
                Fail($"After a kill: {wrong.Message}");
                return;
            }

            Again();
        }
    }

    private void Again()
    {
        lock (_gate)
        {
            Kills++;
            (_isKilled, _isDeaf) = (false, false);
            SentAgain += _pending.Count;
            _process.Dispose();
            _process = Open();
            foreach ((string line, _) in _pending.Values)
            {
                Write(line);
            }
        }
    }

    private void Hear(string line)
    {
        Answered answered;
        try
        {
            answered = JsonSerializer.Deserialize<Answered>(line)!;
        }
        catch (JsonException) when (_isKilled)
        {
            // Killed in the middle of a line: no answer.
            return;
        }

        TaskCompletionSource<ShedAnswer> waiting;
        lock (_gate)
        {
            if (_isDeaf)
            {
                return;
            }

            waiting = _pending[answered.Number].Answer;
            _pending.Remove(answered.Number);
            KeptBefore += answered.Answer?.Outcome == AddOutcome.SavedBefore ? 1 : 0;
        }

        if (answered.Answer is { } answer)
        {
            waiting.SetResult(answer);
        }
        else
        {
            waiting.SetException(new InvalidOperationException(answered.Error));
        }
    }

    private void Fail(string? why)
    {
        lock (_gate)
        {
            foreach ((_, TaskCompletionSource<ShedAnswer> waiting) in _pending.Values)
            {
                waiting.SetException(new InvalidOperationException(why ?? "The program was ended."));
            }

            _pending.Clear();
        }
    }
}
