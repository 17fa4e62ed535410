using System.Collections;
using System.Globalization;
using System.Text;
using QRCoder;

namespace Shimwright.Web.Lan;

/// <summary>An address as a QR code (ISO/IEC 18004), for a terminal and for a page.</summary>
public static class QrPicture
{
    /// <summary>The outline of the dark squares as the path of an SVG, and the width of the whole in squares, the quiet zone of four around it included.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>Path and width.</returns>
    public static (string Path, int Width) Path(string text)
    {
        List<BitArray> rows = Rows(text);
        StringBuilder path = new();
        for (int y = 0; y < rows.Count; y++)
        {
            for (int x = 0; x < rows[y].Count; x++)
            {
                if (rows[y][x])
                {
                    int from = x;
                    while (x + 1 < rows[y].Count && rows[y][x + 1])
                    {
                        x++;
                    }

                    path.Append(CultureInfo.InvariantCulture, $"M{from} {y}h{x - from + 1}v1h-{x - from + 1}z");
                }
            }
        }

        return (path.ToString(), rows.Count);
    }

    /// <summary>The code in half blocks, two squares a character, light on dark as most terminals are.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>Lines.</returns>
    public static IEnumerable<string> Lines(string text)
    {
        List<BitArray> rows = Rows(text);
        for (int y = 0; y < rows.Count; y += 2)
        {
            StringBuilder line = new(rows.Count);
            for (int x = 0; x < rows.Count; x++)
            {
                bool isTop = !rows[y][x];
                bool isBottom = y + 1 >= rows.Count || !rows[y + 1][x];
                line.Append((isTop, isBottom) switch { (true, true) => '\u2588', (true, false) => '\u2580', (false, true) => '\u2584', _ => ' ' });
            }

            yield return line.ToString();
        }
    }

    private static List<BitArray> Rows(string text)
    {
        using QRCodeData data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.M);
        return data.ModuleMatrix;
    }
}
