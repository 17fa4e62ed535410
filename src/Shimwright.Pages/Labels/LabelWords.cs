using System.Globalization;
using Shimwright.Pages.Shell;

namespace Shimwright.Pages.Labels;

/// <summary>Words of labels.</summary>
internal static class LabelWords
{
    /// <summary>What can be printed, to choose from.</summary>
    public static IReadOnlyList<(string Value, string Title, string? Hint)> Whats(LabelKind kind) =>
    [
        ("all", kind == LabelKind.Drawer ? "All sizes in stock" : "All engines in use", null),
        (LabelQuery.OnlyPicked, "Only those picked below", null),
    ];

    /// <summary>Who reaches the bench by the address in a code.</summary>
    public static string Of(ReachKind kind) => kind switch
    {
        ReachKind.ThisMachine => "That address works on this machine only. To scan with a phone, start the bench with serve --lan and print from there.",
        ReachKind.Changing => "The router may give the bench another address, and stickers with this one then lead nowhere. Have the router keep the address, or give the bench a name.",
        ReachKind.ThisDevice => "It opens on phones that have this bench in their browser.",
        _ => "It opens on any device that reaches the bench.",
    };

    public static string Count(int number, string what) => string.Create(CultureInfo.InvariantCulture, $"{number} {what}{(number == 1 ? "" : "s")}");
}
