using System.Buffers.Binary;

namespace Shimwright.Bench.Photos;

/// <summary>What a picture's file says of itself, read before any of it is unpacked.</summary>
/// <param name="ContentType">What it is; empty where neither JPEG nor PNG.</param>
/// <param name="Width">Width as it lies in the file, pixels.</param>
/// <param name="Height">Height as it lies in the file, pixels.</param>
/// <param name="Orientation">How it has to be turned: 1 to 8 as Exif numbers them (CIPA DC-008, tag 0x0112).</param>
/// <param name="Problem">Why it cannot be read; null where it may be tried.</param>
internal sealed record PictureHeader(string ContentType, int Width, int Height, int Orientation, string? Problem)
{
    private const int MostScans = 100;
    private const string CutOff = "found a picture that ends in the middle", Broken = "found a picture that is damaged";

    private static PictureHeader Neither { get; } = new("", 0, 0, 1, "found a file that is neither a JPEG nor a PNG picture");

    public long Pixels => (long)Width * Height;

    public static PictureHeader Read(ReadOnlySpan<byte> file) =>
        file.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? OfJpeg(file)
        : file.StartsWith(PngHeader.Signature) ? PngHeader.Read(file)
        : Neither;

    internal static PictureHeader Cut(string type) => new(type, 0, 0, 1, CutOff);

    internal static PictureHeader Damaged(string type) => new(type, 0, 0, 1, Broken);

    /// <summary>Goes from marker to marker (ITU-T T.81, annex B) to the end of the picture.</summary>
    private static PictureHeader OfJpeg(ReadOnlySpan<byte> file)
    {
        int width = 0, height = 0, orientation = 1, scans = 0;
        for (int at = 2; at + 1 < file.Length;)
        {
            if (file[at] != 0xFF)
            {
                return Damaged(Picture.Jpeg);
            }

            byte marker = file[at + 1];
            if (marker == 0xFF)
            {
                at++;
                continue;
            }

            if (marker == 0xD9)
            {
                return width > 0 && height > 0 && scans > 0 ? new(Picture.Jpeg, width, height, orientation, null) : Damaged(Picture.Jpeg);
            }

            if (at + 4 > file.Length || BinaryPrimitives.ReadUInt16BigEndian(file[(at + 2)..]) is var length && (length < 2 || at + 2 + length > file.Length))
            {
                return Cut(Picture.Jpeg);
            }

            ReadOnlySpan<byte> said = file[(at + 4)..(at + 2 + length)];
            at += 2 + length;
            switch (marker)
            {
                case >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC):
                    if (width > 0 || said.Length < 6)
                    {
                        return Damaged(Picture.Jpeg);
                    }

                    (height, width) = (BinaryPrimitives.ReadUInt16BigEndian(said[1..]), BinaryPrimitives.ReadUInt16BigEndian(said[3..]));
                    break;
                case 0xE1:
                    orientation = ExifOrientation.Of(said) ?? orientation;
                    break;
                case 0xDA:
                    if (width == 0 || ++scans > MostScans)
                    {
                        return Damaged(Picture.Jpeg);
                    }

                    at = AfterScan(file, at);
                    break;
            }
        }

        return Cut(Picture.Jpeg);
    }

    /// <summary>The next marker that is no part of a scan.</summary>
    private static int AfterScan(ReadOnlySpan<byte> file, int at)
    {
        while (at + 1 < file.Length)
        {
            int next = file[at..].IndexOf((byte)0xFF);
            if (next < 0)
            {
                break;
            }

            at += next;
            if (at + 1 < file.Length && file[at + 1] is not (0 or (>= 0xD0 and <= 0xD7)))
            {
                return at;
            }

            at += 2;
        }

        return file.Length;
    }
}
