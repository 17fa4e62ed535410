using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Shimwright.Storage.Database;

/// <summary>A row that is kept with a checksum of what it says, so that damage to it is found.</summary>
internal interface ISummed
{
    /// <summary>The checksum; null where a program from before checksums wrote the row.</summary>
    long? Sum { get; set; }

    /// <summary>What the checksum is of: all that the row says, without what follows from other rows.</summary>
    IEnumerable<object?> Told();
}

/// <summary>The checksum of a row: the first eight bytes of the SHA-256 of its values, each with its length before it.</summary>
internal static class RowSum
{
    /// <summary>The checksum of what a row says now.</summary>
    public static long Of(ISummed row)
    {
        var text = new StringBuilder();
        foreach (object? value in row.Told())
        {
            string? said = value switch
            {
                null => null,
                // By their digits and not by their kind: a time that was read says its kind, one that is to be written may not.
                DateTime at => at.Ticks.ToString(CultureInfo.InvariantCulture),
                Guid id => id.ToString("N"),
                IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
                _ => value.ToString(),
            };
            text.Append(CultureInfo.InvariantCulture, $"{said?.Length ?? -1}:").Append(said);
        }

        return BinaryPrimitives.ReadInt64BigEndian(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }

    /// <summary>A value that came to a row later: told only where it is there, so that the checksums of rows from before still hold.</summary>
    public static IEnumerable<object?> IfAny(object? value) => value is null ? [] : [value];

    /// <summary>Whether a row says what it said when it was written; one without a checksum cannot be told.</summary>
    public static bool Holds(ISummed row) => row.Sum is not { } sum || sum == Of(row);
}
