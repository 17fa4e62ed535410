using StbImageWriteSharp;

namespace Shimwright.Bench.Photos;

/// <summary>A picture unpacked: three bytes a pixel, row after row.</summary>
/// <param name="Width">Width, pixels.</param>
/// <param name="Height">Height, pixels.</param>
/// <param name="Bytes">Red, green and blue of every pixel.</param>
internal sealed record Pixels(int Width, int Height, byte[] Bytes)
{
    private const int Colours = 3;

    /// <summary>On white paper, where pixels let through what is behind them: red, green, blue and cover of each come in.</summary>
    public static Pixels OnWhite(int width, int height, byte[] covered)
    {
        byte[] bytes = new byte[width * height * Colours];
        for (int k = 0, from = 0; k < bytes.Length; from += 4)
        {
            int cover = covered[from + 3];
            for (int c = 0; c < Colours; c++)
            {
                bytes[k++] = (byte)(((covered[from + c] * cover) + (255 * (255 - cover)) + 127) / 255);
            }
        }

        return new(width, height, bytes);
    }

    /// <summary>The picture with no side longer than allowed; every pixel is the mean of those that it takes the place of.</summary>
    public Pixels Within(int longest)
    {
        int longer = Math.Max(Width, Height);
        if (longer <= longest)
        {
            return this;
        }

        int width = Math.Max(1, (int)Math.Round((double)Width * longest / longer)), height = Math.Max(1, (int)Math.Round((double)Height * longest / longer));
        (int First, float Share)[] columns = Shares(Width, width), rows = Shares(Height, height);
        float[] sums = new float[width * height * Colours];
        float[] row = new float[width * Colours];
        for (int y = 0; y < Height; y++)
        {
            Array.Clear(row);
            int at = y * Width * Colours;
            for (int x = 0; x < Width; x++, at += Colours)
            {
                (int first, float share) = columns[x];
                Add(row, first, share, Bytes.AsSpan(at, Colours));
                if (share < 1 && first + 1 < width)
                {
                    Add(row, first + 1, 1 - share, Bytes.AsSpan(at, Colours));
                }
            }

            (int top, float part) = rows[y];
            Lay(row, sums, top, part);
            if (part < 1 && top + 1 < height)
            {
                Lay(row, sums, top + 1, 1 - part);
            }
        }

        float scale = (float)width * height / ((float)Width * Height);
        return new(width, height, [.. sums.Select(s => (byte)Math.Clamp((s * scale) + 0.5f, 0, 255))]);

        static void Add(float[] to, int pixel, float share, ReadOnlySpan<byte> colours)
        {
            for (int c = 0; c < Colours; c++)
            {
                to[(pixel * Colours) + c] += share * colours[c];
            }
        }

        void Lay(float[] from, float[] to, int line, float share)
        {
            int start = line * width * Colours;
            for (int k = 0; k < from.Length; k++)
            {
                to[start + k] += share * from[k];
            }
        }
    }

    /// <summary>The picture upright, by the number with which Exif says how the camera was held.</summary>
    public Pixels Turned(int orientation)
    {
        if (orientation <= 1)
        {
            return this;
        }

        bool lies = orientation >= 5;
        (int width, int height) = lies ? (Height, Width) : (Width, Height);
        byte[] bytes = new byte[Bytes.Length];
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                (int fromX, int fromY) = orientation switch
                {
                    2 => (width - 1 - x, y),
                    3 => (width - 1 - x, height - 1 - y),
                    4 => (x, height - 1 - y),
                    5 => (y, x),
                    6 => (y, width - 1 - x),
                    7 => (height - 1 - y, width - 1 - x),
                    _ => (height - 1 - y, x),
                };
                Bytes.AsSpan(((fromY * Width) + fromX) * Colours, Colours).CopyTo(bytes.AsSpan(((y * width) + x) * Colours));
            }
        }

        return new(width, height, bytes);
    }

    public byte[] ToJpeg(int quality)
    {
        using MemoryStream stream = new();
        new ImageWriter().WriteJpg(Bytes, Width, Height, ColorComponents.RedGreenBlue, stream, quality);
        return stream.ToArray();
    }

    public byte[] ToPng()
    {
        using MemoryStream stream = new();
        new ImageWriter().WritePng(Bytes, Width, Height, ColorComponents.RedGreenBlue, stream);
        return stream.ToArray();
    }

    /// <summary>For every old place the new one that it begins in, and how much of it lies there; the rest lies in the next.</summary>
    private static (int First, float Share)[] Shares(int old, int smaller)
    {
        double scale = (double)smaller / old;
        return
        [
            .. Enumerable.Range(0, old).Select(k =>
            {
                int first = Math.Min(smaller - 1, (int)(k * scale));
                double inside = Math.Min(first + 1 - (k * scale), scale) / scale;
                return (first, (float)Math.Clamp(inside, 0, 1));
            }),
        ];
    }
}
