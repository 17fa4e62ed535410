namespace Shimwright.Fuzz;
internal static class FuzzRun { public static Task<int> RunAsync(int seed, int count) => Task.FromResult(0); }
