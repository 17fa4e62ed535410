namespace Shimwright.Jobs.Sections;

/// <summary>An end of a cylinder head.</summary>
public enum HeadEnd
{
    /// <summary>The end of the first cylinder.</summary>
    First,

    /// <summary>The end of the last cylinder.</summary>
    Last,
}
