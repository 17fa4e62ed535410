using System.Reflection;
using Xunit;

namespace Shimwright.Reference.Published;

public class PublishedFilesTests
{
    private const string Readme = "README.md";

    private static readonly string[] OnDisk =
    [
        .. Directory.EnumerateFiles(PublishedFile.Folder, "*", SearchOption.AllDirectories)
            .Select(f => Path.GetRelativePath(PublishedFile.Folder, f).Replace(Path.DirectorySeparatorChar, '/')),
    ];

    [Fact]
    public void Folder_EveryFile_IsReadByATestAndNoneIsMissing()
    {
        string[] data = [.. OnDisk.Where(f => Path.GetFileName(f) != Readme).Order(StringComparer.Ordinal)];

        string[] read =
        [
            .. typeof(PublishedFilesTests).Assembly.GetTypes()
                .SelectMany(t => t.GetMethods())
                .SelectMany(m => m.GetCustomAttributes<PublishedFileAttribute>())
                .Select(a => a.Name)
                .Distinct()
                .Order(StringComparer.Ordinal),
        ];

        Assert.NotEmpty(data);
        Assert.Equal(data, read);
    }

    [Fact]
    public void Folder_EverySource_HasAReadmeThatNamesItsFiles()
    {
        foreach (IGrouping<string, string> source in OnDisk.Where(f => f.Contains('/')).GroupBy(f => f.Split('/')[0]))
        {
            string readme = new PublishedFile($"{source.Key}/{Readme}").Text;
            foreach (string file in source.Where(f => Path.GetFileName(f) != Readme))
            {
                Assert.Contains(Path.GetFileName(file), readme, StringComparison.Ordinal);
            }
        }
    }
}
