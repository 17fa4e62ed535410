using System.IO.Pipes;
using Shimwright.Cli.Commands;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class ClosedPipeTests
{
    [Theory]
    [InlineData("plan")]
    [InlineData("schema")]
    public void Run_OutputWhoseReaderHasGone_EndsWithALineAndNoTrace(string command)
    {
        using var pipe = new AnonymousPipeServerStream(PipeDirection.Out);
        pipe.DisposeLocalCopyOfClientHandle();
        using var output = new StreamWriter(pipe, bufferSize: 128);
        using var error = new StringWriter();
        int exit = CommandLine.Run(
            command == "plan" ? [command, Demo.At(Demo.Plain)] : [command], new Terminal(Stream.Null, output, error, false, false, 120));
        Assert.Equal(ExitCode.BadInput, exit);
        Assert.StartsWith("shimwright: ", Assert.Single(error.ToString().TrimEnd().Split('\n')), StringComparison.Ordinal);
        Assert.Throws<IOException>(output.Dispose);
    }
}
