using System.Text.Json;
using Shimwright.Storage;
using Shimwright.Testing.Shed;

namespace Shimwright.Year;

/// <summary>What is sent to the program: a call with its number and the time that it is.</summary>
internal sealed record Sent(int Number, DateTime At, ShedCall Call);

/// <summary>What it answers.</summary>
internal sealed record Answered(int Number, ShedAnswer? Answer, string? Error);

/// <summary>The program that keeps the bench: it works on whatever is sent at once, and answers when it is kept. Somebody kills it.</summary>
internal static class Hand
{
    public static async Task<int> RunAsync(string file)
    {
        ShedClock clock = new();
        BenchDatabase database = BenchDatabase.At(file, clock);
        await database.PrepareAsync();
        StoredShed shed = new(database);
        List<Task> working = [];
        while (await Console.In.ReadLineAsync() is { } line)
        {
            Sent sent = JsonSerializer.Deserialize<Sent>(line)!;
            clock.MoveTo(sent.At);
            working.RemoveAll(w => w.IsCompleted);
            working.Add(Task.Run(() => WorkAsync(shed, sent)));
        }

        await Task.WhenAll(working);
        return 0;
    }

    private static async Task WorkAsync(StoredShed shed, Sent sent)
    {
        Answered answered;
        try
        {
            answered = new(sent.Number, await shed.AskAsync(sent.Call), null);
        }
#pragma warning disable CA1031 // Whatever went wrong is told to whoever asked.
        catch (Exception e)
#pragma warning restore CA1031
        {
            answered = new(sent.Number, null, e.ToString());
        }

        string line = JsonSerializer.Serialize(answered);
        lock (Console.Out)
        {
            Console.Out.WriteLine(line);
            Console.Out.Flush();
        }
    }
}
