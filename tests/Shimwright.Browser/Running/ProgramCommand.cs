using System.Diagnostics;
using Shimwright.Testing.Served;

namespace Shimwright.Browser.Running;

/// <summary>One run of a command of the published program.</summary>
internal static class ProgramCommand
{
    /// <summary>Runs it and gives back what it wrote to standard output.</summary>
    public static async Task<string> RunAsync(params string[] args)
    {
        using var process = Process.Start(new ProcessStartInfo(Repository.Script, args) { RedirectStandardOutput = true, RedirectStandardError = true })
            ?? throw new InvalidOperationException($"{Repository.Script} could not be started.");
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        // 3: done, but a valve is stranded.
        Assert.True(process.ExitCode is 0 or 3, $"shimwright {string.Join(' ', args)} ended with {process.ExitCode}: {await error}");
        return await output;
    }
}
