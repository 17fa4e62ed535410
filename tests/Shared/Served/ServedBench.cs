using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;

namespace Shimwright.Testing.Served;

/// <summary>The published program, started as a person starts it, as a process of its own.</summary>
internal sealed partial class ServedBench : IAsyncDisposable
{
    private static readonly TimeSpan LongestStart = TimeSpan.FromMinutes(5);

    private readonly Process _process;
    private readonly StringBuilder _said = new();

    private ServedBench(Process process) => _process = process;

    /// <summary>Where it answers.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>The processor time that it has taken so far.</summary>
    public TimeSpan ProcessorTime
    {
        get
        {
            _process.Refresh();
            return _process.TotalProcessorTime;
        }
    }

    /// <summary>What it wrote, both streams.</summary>
    public string Said
    {
        get
        {
            lock (_said)
            {
                return _said.ToString();
            }
        }
    }

    /// <summary>Starts a bench on a database and waits until it says where it is.</summary>
    /// <param name="database">The database.</param>
    /// <param name="data">The user's data folder; the bench keeps the keys of its forms there where the database is a server.</param>
    /// <param name="variables">Variables of its environment, or null.</param>
    /// <param name="more">More options of the command.</param>
    public static async Task<ServedBench> StartAsync(string database, string data, IReadOnlyDictionary<string, string>? variables = null, params string[] more)
    {
        var process = new Process
        {
            StartInfo = new ProcessStartInfo(Repository.Script, ["serve", "--db", database, "--port", "0", .. more])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
                // Anywhere but where the program lies: its own files must be found all the same.
                WorkingDirectory = Path.GetTempPath(),
                Environment = { ["XDG_DATA_HOME"] = data },
            },
        };
        foreach ((string name, string value) in variables ?? new Dictionary<string, string>())
        {
            process.StartInfo.Environment[name] = value;
        }

        var bench = new ServedBench(process);
        var open = new TaskCompletionSource<Uri>(TaskCreationOptions.RunContinuationsAsynchronously);
        process.OutputDataReceived += (_, line) => bench.Hear(line.Data, open);
        process.ErrorDataReceived += (_, line) => bench.Hear(line.Data, open);
        process.EnableRaisingEvents = true;
        process.Exited += (_, _) =>
        {
            // Until the last line is heard.
            process.WaitForExit();
            open.TrySetException(new InvalidOperationException($"The bench ended before it was open.\n{bench.Said}"));
        };
        process.Start();
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        try
        {
            bench.Address = await open.Task.WaitAsync(LongestStart);
            return bench;
        }
        catch
        {
            await bench.DisposeAsync();
            throw;
        }
    }

    /// <summary>Ends it as a power cut would: no warning, nothing tidied up.</summary>
    public async Task KillAsync()
    {
        // The script has become the program (exec), so this is the server itself: SIGKILL.
        _process.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            await KillAsync();
        }

        _process.Dispose();
    }

    private void Hear(string? line, TaskCompletionSource<Uri> open)
    {
        if (line is null)
        {
            return;
        }

        lock (_said)
        {
            _said.AppendLine(line);
        }

        if (AddressLine().Match(line) is { Success: true } found)
        {
            open.TrySetResult(new Uri(found.Groups[1].Value));
        }
    }

    [GeneratedRegex(@"(?:The bench is open at |^  )(http://127\.0\.0\.1:\d+|https://localhost:\d+)")]
    private static partial Regex AddressLine();
}
