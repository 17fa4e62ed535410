using System.Security.Cryptography;

namespace Shimwright.Bench.Contents;

/// <summary>Lines of a file, none of them longer than is allowed; every byte is counted into a checksum.</summary>
internal sealed class LinesOfBytes(Stream stream, int longest, IncrementalHash sum)
{
    private const int AtATime = 64 * 1024;

    /// <summary>The lines without their ends. A line holds until the next one is asked for.</summary>
    public IEnumerable<ReadOnlyMemory<byte>> All()
    {
        byte[] buffer = new byte[AtATime];
        int start = 0, end = 0, looked = 0;
        while (true)
        {
            int at = Array.IndexOf(buffer, (byte)'\n', looked, end - looked);
            if (at >= 0)
            {
                yield return buffer.AsMemory(start, at - start);
                start = looked = at + 1;
                continue;
            }

            Array.Copy(buffer, start, buffer, 0, end - start);
            (start, end) = (0, end - start);
            looked = end;
            if (end > longest)
            {
                throw new InvalidDataException(FormattableString.Invariant($"a line has more than {longest} bytes"));
            }

            if (end == buffer.Length)
            {
                Array.Resize(ref buffer, buffer.Length * 2);
            }

            int read = stream.Read(buffer, end, buffer.Length - end);
            sum.AppendData(buffer, end, read);
            end += read;
            if (read == 0)
            {
                break;
            }
        }

        if (end > start)
        {
            yield return buffer.AsMemory(start, end - start);
        }
    }
}
