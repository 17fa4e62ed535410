namespace Shimwright.Architecture.Circle.Right;

/// <summary>The other half, through the shape of a type only.</summary>
internal static class RightRoom
{
    public static List<Left.LeftPart>? Other { get; set; }
}
