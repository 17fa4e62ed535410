using Shimwright.Browser.Running;

[assembly: AssemblyFixture(typeof(PublishedProgram))]

namespace Shimwright.Browser.Running;

/// <summary>The program as it is published, built before the first test: none of them waits for that inside its own time.</summary>
public sealed class PublishedProgram : IAsyncLifetime
{
    public async ValueTask InitializeAsync() => await ProgramCommand.RunAsync("--version");

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
