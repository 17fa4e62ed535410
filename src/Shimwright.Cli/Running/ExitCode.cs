namespace Shimwright.Cli.Running;

/// <summary>What the program says to the shell.</summary>
internal static class ExitCode
{
    public const int Done = 0;

    /// <summary>The input is wrong.</summary>
    public const int BadInput = 1;

    /// <summary>The command line is wrong.</summary>
    public const int BadCommandLine = 2;

    /// <summary>Done, but a valve is stranded.</summary>
    public const int Stranded = 3;
}
