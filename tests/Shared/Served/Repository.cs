namespace Shimwright.Testing.Served;

/// <summary>The folder that this was built from.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    /// <summary>The script that a person runs.</summary>
    public static string Script => Path.Combine(Root, "shimwright");

    /// <summary>A job of the demo workshop.</summary>
    public static string Demo(string file) => Path.Combine(Root, "demo", file);

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Shimwright.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException($"Shimwright.slnx is in no folder above {AppContext.BaseDirectory}: the program to be tested cannot be found.");
    }
}
