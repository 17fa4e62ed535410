namespace Shimwright.Browser.Running;

/// <summary>What a person looks at.</summary>
/// <param name="Name">Its name in files.</param>
/// <param name="Width">CSS pixels.</param>
/// <param name="Height">CSS pixels.</param>
/// <param name="Dark">Whether the system asks for dark pages.</param>
/// <param name="Script">Whether scripts may run.</param>
/// <param name="Sun">Whether the bench is set for bright sun.</param>
public sealed record Screen(string Name, int Width, int Height, bool Dark = false, bool Script = true, bool Sun = false)
{
    public static Screen Phone { get; } = new("phone", 390, 844);

    /// <summary>The same with the browser's bars showing.</summary>
    public static Screen Small { get; } = new("small", 390, 664);

    /// <summary>The narrowest that a page has to fit: 1280 pixels at 400 %, WCAG 2.2, 1.4.10.</summary>
    public static Screen Narrow { get; } = new("narrow", 320, 640);

    /// <summary>A desk at 200 %.</summary>
    public static Screen Zoomed { get; } = new("zoomed", 640, 400);

    public static Screen Desk { get; } = new("desk", 1280, 800);

    public static IReadOnlyList<Screen> All { get; } = [Phone, Small, Desk, Narrow, Zoomed, Phone.InDark(), Desk.InDark(), Phone.InTheSun()];

    public Screen InDark() => this with { Dark = true, Name = Name + "-dark" };

    /// <summary>With the bench's setting for bright sun.</summary>
    public Screen InTheSun() => this with { Sun = true, Name = Name + "-sun" };

    public Screen WithoutScript() => this with { Script = false, Name = Name + "-no-script" };

    public override string ToString() => Name;
}
