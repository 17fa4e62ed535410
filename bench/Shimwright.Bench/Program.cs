namespace Shimwright.Bench;

internal static class Program
{
    private static int Main(string[] args)
    {
        foreach (BenchJob job in BenchJob.All)
        {
            StageProfile.Print(Console.Out, job);
        }

        return args.Length;
    }
}
