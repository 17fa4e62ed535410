using System.Text;
using Shimwright.Pages.Labels;

namespace Shimwright.Web.Lan;

/// <summary>An address as a QR code (ISO/IEC 18004) for a terminal.</summary>
public static class QrPicture
{
    /// <summary>The code in half blocks, two squares a character, light on dark as most terminals are.</summary>
    /// <param name="text">What it says.</param>
    /// <returns>Lines.</returns>
    public static IEnumerable<string> Lines(string text)
    {
        var code = QrCode.Of(text);
        for (int y = 0; y < code.Width; y += 2)
        {
            StringBuilder line = new(code.Width);
            for (int x = 0; x < code.Width; x++)
            {
                bool isTop = !code.IsDark(x, y);
                bool isBottom = y + 1 >= code.Width || !code.IsDark(x, y + 1);
                line.Append((isTop, isBottom) switch { (true, true) => '\u2588', (true, false) => '\u2580', (false, true) => '\u2584', _ => ' ' });
            }

            yield return line.ToString();
        }
    }
}
