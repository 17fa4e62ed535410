using Shimwright.Jobs.Members;
using StbImageSharp;

namespace Shimwright.Bench.Photos;

/// <summary>
/// A picture that somebody sends, made anew: unpacked, turned upright, made no larger than it has to be, and packed again. What else was in the
/// file, such as where it was taken, is gone. The file is not trusted: what it declares is looked at before any of it is unpacked.
/// </summary>
/// <param name="Picture">The picture; null where it cannot be taken.</param>
/// <param name="Problem">Why not.</param>
public sealed record ArrivedPicture(Picture? Picture, JobProblem? Problem)
{
    /// <summary>The largest file of a photo, bytes.</summary>
    public const int LargestPhoto = 10 * 1024 * 1024;

    /// <summary>The largest file of a logo, bytes.</summary>
    public const int LargestLogo = 1024 * 1024;

    /// <summary>The most pixels that are unpacked.</summary>
    public const int MostPixels = 50_000_000;

    /// <summary>The longest side of a logo, pixels.</summary>
    public const int LogoSide = 600;

    private const int LargePhoto = 900 * 1024;
    private const string Again = "take the photo again, or save it as a JPEG";

    private static readonly int[] Qualities = [82, 70, 55];

    /// <summary>Pictures are unpacked one at a time: a large one takes some hundred megabytes meanwhile.</summary>
    private static readonly Lock OneAtATime = new();

    /// <summary>Takes a photo in.</summary>
    /// <param name="file">The file.</param>
    /// <returns>The photo, or why not.</returns>
    /// <exception cref="ArgumentNullException">There is no file.</exception>
    public static ArrivedPicture Photo(byte[] file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return Of(file, LargestPhoto, (pixels, _) =>
        {
            Pixels photo = pixels.Within(Picture.LongestSide);
            byte[] content = [];
            foreach (int quality in Qualities)
            {
                content = photo.ToJpeg(quality);
                if (content.Length <= LargePhoto)
                {
                    break;
                }
            }

            return (photo, Picture.Jpeg, content);
        });
    }

    /// <summary>Takes a logo in.</summary>
    /// <param name="file">The file.</param>
    /// <returns>The logo, or why not.</returns>
    /// <exception cref="ArgumentNullException">There is no file.</exception>
    public static ArrivedPicture Logo(byte[] file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return Of(file, LargestLogo, (pixels, type) =>
        {
            Pixels logo = pixels.Within(LogoSide);
            return (logo, type, type == Picture.Png ? logo.ToPng() : logo.ToJpeg(92));
        });
    }

    private static ArrivedPicture Of(byte[] file, int largest, Func<Pixels, string, (Pixels Pixels, string Type, byte[] Content)> pack)
    {
        if (file.Length == 0)
        {
            return No("no picture was chosen, or it is empty", "choose a JPEG or PNG picture");
        }

        if (file.Length > largest)
        {
            return No(FormattableString.Invariant($"found a file of {file.Length / 1048576.0:0.0} MB"), FormattableString.Invariant($"allowed are {largest / 1048576} MB"));
        }

        PictureHeader header = PictureHeader.Read(file);
        if (header.Problem is { } problem)
        {
            return No(problem, Again);
        }

        if (header.Pixels > MostPixels)
        {
            return No(FormattableString.Invariant($"found a picture of {header.Width} by {header.Height} pixels"), FormattableString.Invariant($"allowed are {MostPixels / 1_000_000} million pixels"));
        }

        lock (OneAtATime)
        {
            try
            {
                (Pixels pixels, string type, byte[] content) = pack(Unpacked(file, header), header.ContentType);
                return new(new(type, pixels.Width, pixels.Height, content, pixels.Within(Picture.ThumbSide).ToJpeg(Qualities[0])), null);
            }
            catch (Exception)
            {
                // Whatever the decoder makes of a file that is damaged inside.
                return No("found a picture that is damaged", Again);
            }
        }
    }

    private static Pixels Unpacked(byte[] file, PictureHeader header)
    {
        bool hasCover = header.ContentType == Picture.Png;
        var image = ImageResult.FromMemory(file, hasCover ? ColorComponents.RedGreenBlueAlpha : ColorComponents.RedGreenBlue);
        if (image.Width != header.Width || image.Height != header.Height)
        {
            throw new InvalidDataException("The picture is not what its header says.");
        }

        Pixels pixels = hasCover ? Pixels.OnWhite(image.Width, image.Height, image.Data) : new(image.Width, image.Height, image.Data);
        // Small before it is turned: fewer pixels have to move.
        return pixels.Within(Picture.LongestSide).Turned(header.Orientation);
    }

    private static ArrivedPicture No(string found, string allowed) => new(null, new("photo", found, allowed));
}
