using System.Globalization;
using Shimwright.Cli.Running;
using Spectre.Console;

namespace Shimwright.Cli.Commands;

/// <summary>How many rows of a bench are done, drawn on standard error while that is a terminal; nothing at all otherwise.</summary>
internal static class RowsProgress
{
    private const int AtATime = 50;

    public static async Task<T> ShowAsync<T>(Terminal terminal, string what, Func<IProgress<int>?, Task<T>> work)
    {
        if (!terminal.ErrorIsTerminal)
        {
            return await work(null);
        }

        return await BatchProgress.ConsoleOf(terminal).Progress()
            .Columns(new SpinnerColumn(), new TaskDescriptionColumn(), new ElapsedTimeColumn())
            .StartAsync(async drawn =>
            {
                ProgressTask task = drawn.AddTask(what);
                task.IsIndeterminate = true;
                T result = await work(new Rows(task, what));
                task.StopTask();
                return result;
            });
    }

    private sealed class Rows(ProgressTask task, string what) : IProgress<int>
    {
        public void Report(int value)
        {
            if (value % AtATime == 0)
            {
                task.Description = string.Create(CultureInfo.InvariantCulture, $"{what}: {value} rows");
            }
        }
    }
}
