using System.Buffers.Binary;

namespace Shimwright.Bench.Photos;

/// <summary>How a camera was held, as the Exif segment of a JPEG says it (CIPA DC-008: a TIFF whose first directory has the tag 0x0112).</summary>
internal static class ExifOrientation
{
    private const int Tag = 0x0112, EntryBytes = 12;

    /// <summary>1 to 8; null where it is not said.</summary>
    public static int? Of(ReadOnlySpan<byte> segment)
    {
        if (!segment.StartsWith("Exif\0\0"u8) || segment.Length < 14)
        {
            return null;
        }

        ReadOnlySpan<byte> tiff = segment[6..];
        bool little = tiff.StartsWith("II"u8);
        if (!little && !tiff.StartsWith("MM"u8))
        {
            return null;
        }

        uint directory = Long(tiff, 4, little);
        if (directory > tiff.Length - 2)
        {
            return null;
        }

        int entries = Short(tiff, (int)directory, little);
        for (int k = 0; k < entries; k++)
        {
            int at = (int)directory + 2 + (k * EntryBytes);
            if (at + EntryBytes > tiff.Length)
            {
                return null;
            }

            if (Short(tiff, at, little) == Tag)
            {
                return Short(tiff, at + 8, little) is var said and >= 1 and <= 8 ? said : null;
            }
        }

        return null;
    }

    private static ushort Short(ReadOnlySpan<byte> tiff, int at, bool little) =>
        little ? BinaryPrimitives.ReadUInt16LittleEndian(tiff[at..]) : BinaryPrimitives.ReadUInt16BigEndian(tiff[at..]);

    private static uint Long(ReadOnlySpan<byte> tiff, int at, bool little) =>
        little ? BinaryPrimitives.ReadUInt32LittleEndian(tiff[at..]) : BinaryPrimitives.ReadUInt32BigEndian(tiff[at..]);
}
