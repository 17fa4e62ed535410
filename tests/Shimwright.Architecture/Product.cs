using System.Reflection;

namespace Shimwright.Architecture;

/// <summary>The compiled product, and which project may see which.</summary>
internal static class Product
{
    /// <summary>For each project those that it may reference directly or through others.</summary>
    public static IReadOnlyDictionary<string, string[]> MaySee { get; } = new Dictionary<string, string[]>(StringComparer.Ordinal)
    {
        ["Shimwright.Domain"] = [],
        ["Shimwright.Jobs"] = ["Shimwright.Domain"],
        ["Shimwright.Bench"] = ["Shimwright.Jobs", "Shimwright.Domain"],
        ["Shimwright.Storage"] = ["Shimwright.Bench", "Shimwright.Jobs", "Shimwright.Domain"],
        ["Shimwright.Pages"] = ["Shimwright.Bench", "Shimwright.Jobs", "Shimwright.Domain"],
        ["Shimwright.Pocket"] = ["Shimwright.Pages", "Shimwright.Bench", "Shimwright.Jobs", "Shimwright.Domain"],
        // The host opens the database; its pages and its API know the bench only.
        ["Shimwright.Web"] = ["Shimwright.Pages", "Shimwright.Storage", "Shimwright.Bench", "Shimwright.Jobs", "Shimwright.Domain"],
        ["Shimwright.Cli"] = ["Shimwright.Web", "Shimwright.Pages", "Shimwright.Storage", "Shimwright.Bench", "Shimwright.Jobs", "Shimwright.Domain"],
    };

    /// <summary>Every project of the product that is there, compiled.</summary>
    public static IReadOnlyList<Assembly> Assemblies { get; } =
        [.. MaySee.Keys.Select(AssemblyOf).OfType<Assembly>()];

    /// <summary>The project that an assembly is the outcome of.</summary>
    public static string ProjectOf(AssemblyName assembly) => assembly.Name == "shimwright" ? "Shimwright.Cli" : assembly.Name!;

    private static Assembly? AssemblyOf(string project)
    {
        string file = Path.Combine(AppContext.BaseDirectory, (project == "Shimwright.Cli" ? "shimwright" : project) + ".dll");
        return File.Exists(file) ? Assembly.LoadFrom(file) : null;
    }
}
