namespace Shimwright.Architecture.Circle.Left;

/// <summary>One half of a circle, through the body of a method only.</summary>
internal static class LeftRoom
{
    public static int Number() => Right.RightRoom.Other is null ? 0 : 1;
}

/// <summary>What the other half has a list of.</summary>
internal sealed class LeftPart;
