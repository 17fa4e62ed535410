using System.Globalization;
using Shimwright.Cli.Running;
using Spectre.Console;

namespace Shimwright.Cli.Commands;

/// <summary>
/// How far a batch has come, drawn on standard error while that is a terminal and the answers go elsewhere; nothing at all
/// otherwise, so that logs and pipes stay clean.
/// </summary>
internal static class BatchProgress
{
    /// <summary>Does the work, which reports how many jobs it has answered; how much of the file that was is read off the stream.</summary>
    public static void Show(Terminal terminal, Stream stream, Action<Action<int>> work)
    {
        if (!terminal.ErrorIsTerminal || terminal.OutputIsTerminal)
        {
            work(_ => { });
            return;
        }

        ConsoleOf(terminal).Progress()
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new PercentageColumn(), new RemainingTimeColumn())
            .Start(drawn =>
            {
                ProgressTask task = drawn.AddTask(Words(0), maxValue: stream.CanSeek ? Math.Max(1, stream.Length) : 1);
                task.IsIndeterminate = !stream.CanSeek;
                work(done =>
                {
                    task.Description = Words(done);
                    task.Value = stream.CanSeek ? stream.Position : 0;
                });
                task.Value = task.MaxValue;
                task.StopTask();
            });
    }

    /// <summary>A console on standard error, for what is drawn while work goes on.</summary>
    public static IAnsiConsole ConsoleOf(Terminal terminal)
    {
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Out = new AnsiConsoleOutput(terminal.Error),
            Ansi = AnsiSupport.Yes,
            Interactive = InteractionSupport.Yes,
        });
        console.Profile.Width = terminal.Width;
        return console;
    }

    private static string Words(int done) => string.Create(CultureInfo.InvariantCulture, $"{done} jobs done");
}
