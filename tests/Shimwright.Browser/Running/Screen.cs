namespace Shimwright.Browser.Running;

/// <summary>What a person looks at.</summary>
/// <param name="Name">Its name in files.</param>
/// <param name="Width">CSS pixels.</param>
/// <param name="Height">CSS pixels.</param>
/// <param name="Dark">Whether the system asks for dark pages.</param>
/// <param name="Script">Whether scripts may run.</param>
public sealed record Screen(string Name, int Width, int Height, bool Dark = false, bool Script = true)
{
    public static Screen Phone { get; } = new("phone", 390, 844);

    public static Screen Desk { get; } = new("desk", 1280, 800);

    public static IReadOnlyList<Screen> All { get; } = [Phone, Desk, Phone.InDark(), Desk.InDark()];

    public Screen InDark() => this with { Dark = true, Name = Name + "-dark" };

    public Screen WithoutScript() => this with { Script = false, Name = Name + "-no-script" };

    public override string ToString() => Name;
}
