using Shimwright.Bench.Contents;
using Shimwright.Storage.Database;

namespace Shimwright.Storage.Copies;

/// <summary>Archives in files.</summary>
internal static class Archives
{
    /// <summary>Whether a file is packed as an archive is.</summary>
    public static bool IsOne(string file)
    {
        using FileStream stream = File.OpenRead(file);
        return stream.ReadByte() == 'P' && stream.ReadByte() == 'K';
    }

    /// <summary>What is in an archive.</summary>
    /// <exception cref="BenchDatabaseException">It cannot be read.</exception>
    public static BenchContents Read(string file, IProgress<int>? progress)
    {
        using FileStream stream = File.OpenRead(file);
        ReadArchive read = BenchArchive.Read(stream, progress);
        return read.Contents ?? throw BenchDatabaseException.Refused(file, read.Problems);
    }
}
