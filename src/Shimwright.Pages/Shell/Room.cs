namespace Shimwright.Pages.Shell;

/// <summary>A room of the bench, as the navigation lists it.</summary>
internal sealed record Room(string Name, string Address)
{
    public static IReadOnlyList<Room> All { get; } =
    [
        new("Bench", "/"),
        new("Engines", "/engines"),
        new("Due", "/due"),
        new("Drawer", "/drawer"),
        new("Settings", "/settings"),
    ];
}
