using Shimwright.Storage.Tests.Killed;
using Xunit.MicrosoftTestingPlatform;
using Xunit.Runner.InProc.SystemConsole;

namespace Shimwright.Storage.Tests;

/// <summary>The test program; called as "writer ADDRESS JOB DEVICE" it is the program that is killed while it saves.</summary>
internal static class Program
{
    public static Task<int> Main(string[] args) =>
        args is ["writer", var address, var job, var device] ? Writer.RunAsync(address, Guid.Parse(job), device)
        : args.Any(a => a is "--server" or "--internal-msbuild-node") ? TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions)
        : ConsoleRunner.Run(args);
}
