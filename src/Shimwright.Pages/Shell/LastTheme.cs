namespace Shimwright.Pages.Shell;

/// <summary>The theme of the last page that was made, for a page that cannot ask for it.</summary>
internal sealed class LastTheme
{
    /// <summary>Its name.</summary>
    public string Name { get; set; } = "system";
}
