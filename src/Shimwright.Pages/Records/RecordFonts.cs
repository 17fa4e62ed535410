using System.Reflection;
using PdfSharp.Fonts;

namespace Shimwright.Pages.Records;

/// <summary>The letters of a PDF: Open Sans, which lies within the program, so that a record looks alike wherever it is made.</summary>
internal sealed class RecordFonts : IFontResolver
{
    public const string Family = "Open Sans";

    private const string Plain = "OpenSans-Regular", Bold = "OpenSans-Bold";

    private static readonly Lock Once = new();

    /// <summary>Tells the library, which asks once for the whole program.</summary>
    public static void Use()
    {
        lock (Once)
        {
            if (GlobalFontSettings.FontResolver is not RecordFonts)
            {
                GlobalFontSettings.FontResolver = new RecordFonts();
            }
        }
    }

    public FontResolverInfo ResolveTypeface(string familyName, bool bold, bool italic) => new(bold ? Bold : Plain);

    public byte[] GetFont(string faceName)
    {
        using Stream font = Assembly.GetExecutingAssembly().GetManifestResourceStream($"Records.{faceName}.ttf")
            ?? throw new InvalidOperationException($"There is no font {faceName}.");
        byte[] bytes = new byte[font.Length];
        font.ReadExactly(bytes);
        return bytes;
    }
}
