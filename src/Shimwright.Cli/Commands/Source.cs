using Shimwright.Cli.Running;

namespace Shimwright.Cli.Commands;

/// <summary>Files named on the command line; - is standard input.</summary>
internal static class Source
{
    /// <summary>Everything in the file, or null after saying why it cannot be read.</summary>
    public static byte[]? ReadAll(Terminal terminal, string file)
    {
        using Stream? stream = Open(terminal, file);
        if (stream is null)
        {
            return null;
        }

        using var buffer = new MemoryStream();
        stream.CopyTo(buffer);
        return buffer.ToArray();
    }

    /// <summary>The open file, or null after saying why it cannot be opened.</summary>
    public static Stream? Open(Terminal terminal, string file)
    {
        if (string.IsNullOrWhiteSpace(file))
        {
            return Failed("the name is empty; name a file");
        }

        if (file == "-")
        {
            return terminal.Input;
        }

        try
        {
            return File.OpenRead(file);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return Failed("there is no such file; see the folder demo for examples");
        }
        catch (UnauthorizedAccessException)
        {
            return Failed(Directory.Exists(file) ? "that is a folder; name a file in it" : "it may not be read by this user");
        }
        catch (Exception e) when (e is IOException or ArgumentException or NotSupportedException)
        {
            return Failed(e.Message);
        }

        Stream? Failed(string why)
        {
            terminal.Error.WriteLine($"{file}: cannot be read: {why}");
            return null;
        }
    }
}
