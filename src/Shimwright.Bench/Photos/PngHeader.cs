using System.Buffers.Binary;
using System.IO.Compression;

namespace Shimwright.Bench.Photos;

/// <summary>A PNG's header (ISO/IEC 15948), and whether its data unpack to what the header says and no more: a small file may hold gigabytes.</summary>
internal static class PngHeader
{
    private const int HeaderBytes = 13, ChunkBytes = 12, AtATime = 64 * 1024, Spare = 1024;
    private const long MostRaw = 4L * ArrivedPicture.MostPixels;

    /// <summary>Where Adam7's passes begin, and how far apart their pixels are: x, y, dx, dy.</summary>
    private static readonly (int X, int Y, int Dx, int Dy)[] Passes =
        [(0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2)];

    public static ReadOnlySpan<byte> Signature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    public static PictureHeader Read(ReadOnlySpan<byte> file)
    {
        int width = 0, height = 0;
        long raw = 0;
        using MemoryStream packed = new();
        for (int at = Signature.Length; at + ChunkBytes <= file.Length;)
        {
            uint length = BinaryPrimitives.ReadUInt32BigEndian(file[at..]);
            if (length > file.Length - at - ChunkBytes)
            {
                break;
            }

            ReadOnlySpan<byte> kind = file[(at + 4)..(at + 8)], said = file[(at + 8)..(at + 8 + (int)length)];
            at += ChunkBytes + (int)length;
            if (kind.SequenceEqual("IHDR"u8))
            {
                if (width > 0 || length != HeaderBytes || BinaryPrimitives.ReadUInt32BigEndian(said) is not (var w and >= 1 and <= int.MaxValue)
                    || BinaryPrimitives.ReadUInt32BigEndian(said[4..]) is not (var h and >= 1 and <= int.MaxValue) || BitsOf(said) is not { } bits)
                {
                    return PictureHeader.Damaged(Picture.Png);
                }

                (width, height) = ((int)w, (int)h);
                if ((long)width * height > ArrivedPicture.MostPixels)
                {
                    return new(Picture.Png, width, height, 1, null);
                }

                raw = said[12] == 0 ? Bytes(width, height, bits) : Passes.Sum(p => Bytes(Left(width, p.X, p.Dx), Left(height, p.Y, p.Dy), bits));
            }
            else if (kind.SequenceEqual("IDAT"u8))
            {
                packed.Write(said);
            }
            else if (kind.SequenceEqual("IEND"u8))
            {
                return width == 0 || raw > MostRaw || !UnpacksTo(packed, raw) ? PictureHeader.Damaged(Picture.Png) : new(Picture.Png, width, height, 1, null);
            }
        }

        return PictureHeader.Cut(Picture.Png);
    }

    /// <summary>Bits of a pixel, from depth and kind of colour; null where there is no such kind.</summary>
    private static int? BitsOf(ReadOnlySpan<byte> header) => (Depth: header[8], Colour: header[9], Interlace: header[12]) switch
    {
        { Interlace: > 1 } => null,
        { Colour: 0, Depth: 1 or 2 or 4 or 8 or 16 } or { Colour: 3, Depth: 1 or 2 or 4 or 8 } => header[8],
        { Colour: 2, Depth: 8 or 16 } => 3 * header[8],
        { Colour: 4, Depth: 8 or 16 } => 2 * header[8],
        { Colour: 6, Depth: 8 or 16 } => 4 * header[8],
        _ => null,
    };

    private static long Left(long size, int from, int step) => (size - from + step - 1) / step;

    private static long Bytes(long width, long height, int bits) => width <= 0 || height <= 0 ? 0 : height * (1 + (((width * bits) + 7) / 8));

    private static bool UnpacksTo(MemoryStream packed, long raw)
    {
        packed.Position = 0;
        byte[] buffer = new byte[AtATime];
        long count = 0;
        try
        {
            using ZLibStream inner = new(packed, CompressionMode.Decompress, leaveOpen: true);
            while (count <= raw + Spare && inner.Read(buffer) is var read and > 0)
            {
                count += read;
            }
        }
        catch (InvalidDataException)
        {
            return false;
        }

        return count >= raw && count <= raw + Spare;
    }
}
