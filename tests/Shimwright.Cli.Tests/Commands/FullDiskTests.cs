using Shimwright.Cli.Commands;
using Shimwright.Cli.Running;
using Shimwright.Cli.Tests.Samples;

namespace Shimwright.Cli.Tests.Commands;

public class FullDiskTests
{
    // The last of the output leaves its buffer at the end of the run; that it could not be written was not noticed.
    [Fact]
    public void Run_OutputThatCannotBeWritten_ExitsOneAndSaysWhy()
    {
        using var full = new FullDisk();
        using var output = new StreamWriter(full);
        using var error = new StringWriter();
        var terminal = new Terminal(Stream.Null, output, error, false, false, Terminal.UsualWidth);
        Assert.Equal(ExitCode.BadInput, CommandLine.Run(["plan", Demo.At(Demo.Plain)], terminal));
        Assert.Equal("shimwright: the disk is full", error.ToString().Trim());
        full.HasRoom = true;
    }

    [Fact]
    public void Run_EmptyFileName_SaysToNameAFile()
    {
        ProgramRun run = ProgramRun.Of("plan", "");
        Assert.Equal(ExitCode.BadInput, run.Exit);
        Assert.Contains("name a file", Assert.Single(run.ErrorLines), StringComparison.Ordinal);
    }

    [Fact]
    public void Run_PlanThatChangesNothing_DoesNotTellToLiftCamshafts()
    {
        ProgramRun run = ProgramRun.Of("plan", Demo.At(Demo.Plain));
        Assert.Contains("To open: nothing", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("Loosen the caps", run.Output, StringComparison.Ordinal);
        Assert.Contains("Nothing is lifted or changed", run.Output, StringComparison.Ordinal);
    }

    private sealed class FullDisk : MemoryStream
    {
        public bool HasRoom { get; set; }

        public override void Write(byte[] buffer, int offset, int count)
        {
            if (!HasRoom)
            {
                throw new IOException("the disk is full");
            }
        }

        public override void Write(ReadOnlySpan<byte> buffer) => Write([], 0, buffer.Length);
    }
}
