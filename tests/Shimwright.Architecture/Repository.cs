namespace Shimwright.Architecture;

/// <summary>The project's files, found from where the tests run.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    /// <summary>The files of a folder with one of these endings, build output left out; none where there is no such folder.</summary>
    public static IEnumerable<string> Files(string folder, params string[] endings)
    {
        string path = Path.Combine(Root, folder);
        return !Directory.Exists(path)
            ? []
            : Directory.EnumerateFiles(path, "*", SearchOption.AllDirectories)
                .Where(f => endings.Any(e => f.EndsWith(e, StringComparison.Ordinal)))
                .Where(f => !f.Split(Path.DirectorySeparatorChar).Any(part => part is "bin" or "obj"));
    }

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Shimwright.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new DirectoryNotFoundException("The tests do not run inside the project.");
    }
}
