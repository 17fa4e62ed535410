namespace Shimwright.Pages.Files;

/// <summary>A file that a page offers.</summary>
/// <param name="Name">What it is called where it is kept.</param>
/// <param name="ContentType">Its media type.</param>
/// <param name="Content">What is in it.</param>
public sealed record BenchFile(string Name, string ContentType, byte[] Content);
