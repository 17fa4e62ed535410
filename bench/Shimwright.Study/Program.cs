namespace Shimwright.Study; internal static class Program { private static int Main() => 0; }
