namespace Shimwright.Pages.Labels;

/// <summary>What labels are of.</summary>
public enum LabelKind
{
    /// <summary>The compartments of the drawer.</summary>
    Drawer,

    /// <summary>Engines.</summary>
    Engines,
}

/// <summary>A line on a label.</summary>
/// <param name="Text">What it says.</param>
/// <param name="Weight">How large it is beside the others.</param>
/// <param name="IsBold">Whether it is bold.</param>
/// <param name="MayBreak">Whether it becomes two lines rather than small.</param>
public sealed record LabelLine(string Text, double Weight = 1, bool IsBold = false, bool MayBreak = false);

/// <summary>What a label says.</summary>
/// <param name="Address">What its code leads to.</param>
/// <param name="Lines">Its lines.</param>
/// <param name="Few">The same in fewer lines, for a low label.</param>
public sealed record Label(string Address, IReadOnlyList<LabelLine> Lines, IReadOnlyList<LabelLine> Few);

/// <summary>A code on a sheet.</summary>
/// <param name="Code">The code.</param>
/// <param name="X">The left edge of its quiet zone, mm.</param>
/// <param name="Y">The upper edge of its quiet zone, mm.</param>
/// <param name="Module">The side of a module, mm.</param>
public sealed record PlacedCode(QrCode Code, double X, double Y, double Module)
{
    /// <summary>Its side with the quiet zone, mm.</summary>
    public double Side => Code.Width * Module;
}

/// <summary>A line on a sheet.</summary>
/// <param name="Text">What it says.</param>
/// <param name="IsBold">Whether it is bold.</param>
/// <param name="Size">The height of the type, mm.</param>
/// <param name="X">Its left end, mm.</param>
/// <param name="Baseline">The line it stands on, mm.</param>
/// <param name="Width">Its width, mm.</param>
public sealed record PlacedLine(string Text, bool IsBold, double Size, double X, double Baseline, double Width);

/// <summary>A label on a sheet.</summary>
/// <param name="Box">Where it lies.</param>
/// <param name="Code">Its code; null where it is too small for one that can be read.</param>
/// <param name="Lines">Its lines.</param>
public sealed record PlacedLabel(LabelBox Box, PlacedCode? Code, IReadOnlyList<PlacedLine> Lines);
