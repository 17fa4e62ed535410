using System.Runtime.Versioning;

[assembly: SupportedOSPlatform("browser")]

namespace Shimwright.Pocket;

/// <summary>Nothing begins by itself: the worker's script opens the gate.</summary>
internal static class Program
{
    private static void Main()
    {
    }
}
