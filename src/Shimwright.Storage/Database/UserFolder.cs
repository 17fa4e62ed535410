namespace Shimwright.Storage.Database;

/// <summary>Where this program keeps what has no other place.</summary>
internal static class UserFolder
{
    /// <summary>The user's data folder.</summary>
    public static string Data => Path.Combine(
        Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create), "shimwright");
}
