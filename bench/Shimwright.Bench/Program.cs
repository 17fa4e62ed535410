namespace Shimwright.Bench; internal static class Program { private static int Main() => 0; }
