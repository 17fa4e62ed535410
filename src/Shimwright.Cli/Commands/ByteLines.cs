namespace Shimwright.Cli.Commands;

/// <summary>Lines of a stream as the bytes that stand there, so that bytes which are no text can be told from text.</summary>
internal static class ByteLines
{
    private const int Chunk = 1 << 16;

    /// <summary>The lines without their ends (LF or CR LF); a last line need not be ended.</summary>
    public static IEnumerable<byte[]> Of(Stream stream)
    {
        byte[] chunk = new byte[Chunk];
        var line = new MemoryStream();
        int read;
        while ((read = stream.Read(chunk)) > 0)
        {
            int start = 0;
            for (int end; (end = Array.IndexOf(chunk, (byte)'\n', start, read - start)) >= 0; start = end + 1)
            {
                line.Write(chunk, start, end - start);
                yield return Take(line);
            }

            line.Write(chunk, start, read - start);
        }

        if (line.Length > 0)
        {
            yield return Take(line);
        }
    }

    private static byte[] Take(MemoryStream line)
    {
        byte[] bytes = line.ToArray();
        line.SetLength(0);
        return bytes is [.., (byte)'\r'] ? bytes[..^1] : bytes;
    }
}
