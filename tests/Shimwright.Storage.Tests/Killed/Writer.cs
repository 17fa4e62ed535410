using System.Globalization;
using Shimwright.Bench.Jobs;
using Shimwright.Jobs.Facts;

namespace Shimwright.Storage.Tests.Killed;

/// <summary>Adds notes to a job without end, and prints the action of each that was acknowledged. Somebody kills it.</summary>
internal static class Writer
{
    public static async Task<int> RunAsync(string address, Guid job, string device)
    {
        BenchDatabase database = BenchDatabase.At(address, TimeProvider.System);
        for (int n = 1; ; n++)
        {
            Guid action = Guid.NewGuid();
            string text = n.ToString(CultureInfo.InvariantCulture);
            AddResult result = await database.Jobs.AddAsync(job, new(action, device, 0, [new JobNoted(text), new JobNoted(text + " too")]));
            if (result.Outcome != AddOutcome.Saved)
            {
                Console.Error.WriteLine($"{result.Outcome}: {string.Join("; ", result.Problems)}");
                return 1;
            }

            Console.Out.WriteLine(action.ToString());
            Console.Out.Flush();
        }
    }
}
