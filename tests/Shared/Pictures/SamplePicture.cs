using System.Buffers.Binary;
using System.IO.Compression;
using StbImageWriteSharp;

namespace Shimwright.Testing.Pictures;

/// <summary>Picture files as cameras make them: red at the top left, green at the top right, blue at the bottom left, white at the bottom right.</summary>
internal static class SamplePicture
{
    /// <summary>What stands in the file beside the picture, and must not be kept.</summary>
    public const string Secret = "47.0707N 15.4395E";

    /// <summary>A JPEG whose pixels lie so that it is upright once it is turned as it says.</summary>
    public static byte[] Jpeg(int width = 64, int height = 48, int orientation = 1, int quality = 90)
    {
        (int w, int h) = orientation >= 5 ? (height, width) : (width, height);
        byte[] bytes = new byte[w * h * 3];
        for (int y = 0; y < h; y++)
        {
            for (int x = 0; x < w; x++)
            {
                (int ux, int uy) = Upright(x, y, w, h, orientation);
                ColourAt(ux < width / 2, uy < height / 2).CopyTo(bytes.AsSpan(((y * w) + x) * 3));
            }
        }

        using MemoryStream stream = new();
        new ImageWriter().WriteJpg(bytes, w, h, ColorComponents.RedGreenBlue, stream, quality);
        byte[] plain = stream.ToArray();
        return [.. plain[..2], .. Exif(orientation), .. plain[2..]];
    }

    /// <summary>A PNG, its right half let through.</summary>
    public static byte[] Png(int width = 64, int height = 48)
    {
        byte[] bytes = new byte[width * height * 4];
        for (int k = 0; k < width * height; k++)
        {
            bool left = k % width < width / 2;
            ColourAt(left, k / width < height / 2).CopyTo(bytes.AsSpan(k * 4));
            bytes[(k * 4) + 3] = (byte)(left ? 255 : 0);
        }

        using MemoryStream stream = new();
        new ImageWriter().WritePng(bytes, width, height, ColorComponents.RedGreenBlueAlpha, stream);
        byte[] plain = stream.ToArray();
        return [.. plain[..^12], .. Chunk("tEXt", System.Text.Encoding.ASCII.GetBytes("Comment\0" + Secret)), .. plain[^12..]];
    }

    /// <summary>A PNG that says that it has these sides, with so many bytes packed in it, all of them 0.</summary>
    public static byte[] PngOf(int width, int height, int packed)
    {
        byte[] header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        header[8] = 8;
        using MemoryStream data = new();
        using (ZLibStream zip = new(data, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            byte[] block = new byte[1 << 16];
            for (int left = packed; left > 0; left -= block.Length)
            {
                zip.Write(block, 0, Math.Min(left, block.Length));
            }
        }

        return [0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10, .. Chunk("IHDR", header), .. Chunk("IDAT", data.ToArray()), .. Chunk("IEND", [])];
    }

    public static byte[] ColourAt(bool left, bool top) => (left, top) switch
    {
        (true, true) => [255, 0, 0],
        (false, true) => [0, 255, 0],
        (true, false) => [0, 0, 255],
        _ => [255, 255, 255],
    };

    /// <summary>Where a pixel of the file is to be seen: what CIPA DC-008 says of row 0 and column 0.</summary>
    private static (int X, int Y) Upright(int x, int y, int w, int h, int orientation) => orientation switch
    {
        2 => (w - 1 - x, y),
        3 => (w - 1 - x, h - 1 - y),
        4 => (x, h - 1 - y),
        5 => (y, x),
        6 => (h - 1 - y, x),
        7 => (h - 1 - y, w - 1 - x),
        8 => (y, w - 1 - x),
        _ => (x, y),
    };

    private static byte[] Exif(int orientation)
    {
        byte[] secret = System.Text.Encoding.ASCII.GetBytes(Secret);
        byte[] tiff = [(byte)'M', (byte)'M', 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte)orientation, 0, 0, 0, 0, 0, 0, .. secret];
        int length = 2 + 6 + tiff.Length;
        return [0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. "Exif\0\0"u8, .. tiff];
    }

    private static byte[] Chunk(string kind, byte[] said)
    {
        byte[] body = [.. System.Text.Encoding.ASCII.GetBytes(kind), .. said], chunk = new byte[body.Length + 8];
        BinaryPrimitives.WriteInt32BigEndian(chunk, said.Length);
        body.CopyTo(chunk, 4);
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(body.Length + 4), Crc(body));
        return chunk;
    }

    private static uint Crc(byte[] bytes)
    {
        uint crc = 0xFFFFFFFF;
        foreach (byte b in bytes)
        {
            crc ^= b;
            for (int k = 0; k < 8; k++)
            {
                crc = (crc >> 1) ^ ((crc & 1) == 0 ? 0 : 0xEDB88320);
            }
        }

        return ~crc;
    }
}
