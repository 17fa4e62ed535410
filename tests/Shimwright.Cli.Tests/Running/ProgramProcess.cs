using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;

namespace Shimwright.Cli.Tests.Running;

/// <summary>A command that runs as a process of its own; what it writes is kept.</summary>
internal sealed partial class ProgramProcess : IAsyncDisposable
{
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(5);

    private readonly StringBuilder _said = new();
    private readonly TaskCompletionSource<Uri> _open = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Process _process;

    /// <summary>Starts it.</summary>
    /// <param name="file">The program.</param>
    /// <param name="args">Its arguments.</param>
    /// <param name="variables">Variables of its environment beside those of the tests; one that is null it does not have.</param>
    public ProgramProcess(string file, IEnumerable<string> args, IReadOnlyDictionary<string, string?>? variables = null)
    {
        _process = new Process
        {
            StartInfo = new ProcessStartInfo(file, args) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Path.GetTempPath() },
        };
        foreach ((string name, string? value) in variables ?? new Dictionary<string, string?>())
        {
            if (value is null)
            {
                _process.StartInfo.Environment.Remove(name);
            }
            else
            {
                _process.StartInfo.Environment[name] = value;
            }
        }

        _process.OutputDataReceived += (_, line) => Hear(line.Data);
        _process.ErrorDataReceived += (_, line) => Hear(line.Data);
        _process.EnableRaisingEvents = true;
        _process.Exited += (_, _) => _open.TrySetException(new InvalidOperationException($"It ended before it was open.\n{Said}"));
        _process.Start();
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
    }

    /// <summary>This program, as it lies beside the tests.</summary>
    public static string Program => Path.Combine(AppContext.BaseDirectory, "shimwright.dll");

    public int Id => _process.Id;

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

    /// <summary>Waits until a bench says where it is open.</summary>
    public Task<Uri> OpenAsync() => _open.Task.WaitAsync(Longest, TestContext.Current.CancellationToken);

    /// <summary>Asks it to end, as a service manager does.</summary>
    public void Terminate()
    {
        using var kill = Process.Start("kill", ["-TERM", _process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    /// <summary>Waits until it has ended.</summary>
    /// <param name="longest">How long at most; five minutes if it is not said.</param>
    /// <returns>Its exit code.</returns>
    public async Task<int> EndAsync(TimeSpan? longest = null)
    {
        await _process.WaitForExitAsync(TestContext.Current.CancellationToken).WaitAsync(longest ?? Longest, TestContext.Current.CancellationToken);
        return _process.ExitCode;
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync();
        }

        // Where nobody waited for the bench to open, its end is no fault.
        _ = _open.Task.Exception;
        _process.Dispose();
    }

    private void Hear(string? line)
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
            _open.TrySetResult(new Uri($"http://127.0.0.1:{found.Groups[1].Value}"));
        }
    }

    [GeneratedRegex(@"The bench is open at http://[\w.]+:(\d+)")]
    private static partial Regex AddressLine();
}
