using Shimwright.Pages.Labels;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace Shimwright.Pages.Tests.Labels;

/// <summary>Reads a code off what was drawn: dark rectangles on white paper, as a scanner sees them, by a library that knows nothing of how they were made.</summary>
internal static class QrReader
{
    /// <summary>Dots per inch, from finest to coarsest: a phone that cannot read a picture takes another from a little further away.</summary>
    private static readonly double[] Pictures = [600, 500, 400, 300];

    /// <summary>What the code says.</summary>
    /// <param name="dark">The dark rectangles, mm.</param>
    /// <param name="paper">The part of the paper that is looked at: the label.</param>
    /// <returns>The text; null where nothing can be read.</returns>
    public static string? Read(IReadOnlyList<LabelBox> dark, LabelBox paper) => Pictures.Select(p => Read(dark, paper, p / 25.4)).FirstOrDefault(t => t is not null);

    private static string? Read(IReadOnlyList<LabelBox> dark, LabelBox paper, double dotsPerMm)
    {
        int width = (int)(paper.Width * dotsPerMm), height = (int)(paper.Height * dotsPerMm);
        byte[] grey = new byte[width * height];
        Array.Fill(grey, byte.MaxValue);
        foreach (LabelBox box in dark)
        {
            for (int y = Dot(box.Y - paper.Y); y < Math.Min(height, Dot(box.Bottom - paper.Y)); y++)
            {
                for (int x = Dot(box.X - paper.X); x < Math.Min(width, Dot(box.Right - paper.X)); x++)
                {
                    grey[(y * width) + x] = 0;
                }
            }
        }

        RGBLuminanceSource seen = new(grey, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        Dictionary<DecodeHintType, object> hints = new() { [DecodeHintType.TRY_HARDER] = true };
        return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(seen)), hints)?.Text;

        int Dot(double mm) => Math.Max(0, (int)Math.Round(mm * dotsPerMm));
    }
}
