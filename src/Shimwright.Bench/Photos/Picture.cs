namespace Shimwright.Bench.Photos;

/// <summary>A picture as the bench keeps it: made anew on arrival, upright, and with nothing in the file but the picture.</summary>
/// <param name="ContentType">image/jpeg or image/png.</param>
/// <param name="Width">Width, pixels.</param>
/// <param name="Height">Height, pixels.</param>
/// <param name="Content">The file.</param>
/// <param name="Thumb">The same picture small, always a JPEG.</param>
public sealed record Picture(string ContentType, int Width, int Height, byte[] Content, byte[] Thumb)
{
    /// <summary>What a JPEG file is called.</summary>
    public const string Jpeg = "image/jpeg";

    /// <summary>What a PNG file is called.</summary>
    public const string Png = "image/png";

    /// <summary>The longest side of a photo, pixels.</summary>
    public const int LongestSide = 2000;

    /// <summary>The longest side of a small picture, pixels.</summary>
    public const int ThumbSide = 320;

    /// <summary>The most bytes of a kept picture.</summary>
    public const int MostBytes = 12 * 1024 * 1024;

    /// <summary>Whether it is one that the bench could have made.</summary>
    /// <returns>Whether it is.</returns>
    public bool IsSound() =>
        ContentType is Jpeg or Png && Width is >= 1 and <= LongestSide && Height is >= 1 and <= LongestSide
        && Content.Length <= MostBytes && Thumb.Length <= MostBytes
        && PictureHeader.Read(Content) is { Problem: null } whole && whole.ContentType == ContentType && (whole.Width, whole.Height) == (Width, Height)
        && PictureHeader.Read(Thumb) is { Problem: null, ContentType: Jpeg, Width: <= ThumbSide, Height: <= ThumbSide };
}

/// <summary>A picture in a list.</summary>
/// <param name="Id">The picture.</param>
/// <param name="Width">Width, pixels.</param>
/// <param name="Height">Height, pixels.</param>
public sealed record PictureSize(Guid Id, int Width, int Height);
