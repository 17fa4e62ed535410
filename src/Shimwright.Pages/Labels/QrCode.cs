using System.Collections;
using System.Globalization;
using System.Text;
using QRCoder;

namespace Shimwright.Pages.Labels;

/// <summary>A text as a QR code (ISO/IEC 18004), error correction M, with the quiet zone of four modules around it.</summary>
public sealed class QrCode
{
    private readonly List<BitArray> _rows;

    private QrCode(List<BitArray> rows) => _rows = rows;

    /// <summary>How many modules it is wide and high, the quiet zone with it.</summary>
    public int Width => _rows.Count;

    /// <summary>A text as a code.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>The code.</returns>
    public static QrCode Of(string text)
    {
        using QRCodeData data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M);
        return new(data.ModuleMatrix);
    }

    /// <summary>Whether a module is dark.</summary>
    /// <param name="x">Its column.</param>
    /// <param name="y">Its row.</param>
    /// <returns>Whether it is.</returns>
    public bool IsDark(int x, int y) => _rows[y][x];

    /// <summary>Dark modules beside each other, as one.</summary>
    /// <returns>Column, row and length of each run.</returns>
    public IEnumerable<(int X, int Y, int Length)> Runs()
    {
        for (int y = 0; y < Width; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                if (IsDark(x, y))
                {
                    int from = x;
                    while (x + 1 < Width && IsDark(x + 1, y))
                    {
                        x++;
                    }

                    yield return (from, y, x - from + 1);
                }
            }
        }
    }

    /// <summary>The dark modules as the path of an SVG, a module being one long.</summary>
    /// <returns>The path.</returns>
    public string Path()
    {
        StringBuilder path = new();
        foreach ((int x, int y, int length) in Runs())
        {
            path.Append(CultureInfo.InvariantCulture, $"M{x} {y}h{length}v1h-{length}z");
        }

        return path.ToString();
    }
}
