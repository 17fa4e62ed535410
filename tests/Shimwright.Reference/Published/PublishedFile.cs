namespace Shimwright.Reference.Published;

/// <summary>A file under data/published, kept as its source published it.</summary>
/// <param name="Name">Its path below data/published, with forward slashes.</param>
public sealed record PublishedFile(string Name)
{
    /// <summary>Where the build puts copies of data/published.</summary>
    internal static string Folder => Path.Combine(AppContext.BaseDirectory, "published");

    /// <summary>The whole text.</summary>
    public string Text => File.ReadAllText(Path.Combine(Folder, Name));

    /// <summary>What a test that is handed the file is shown as.</summary>
    public override string ToString() => Name;
}
