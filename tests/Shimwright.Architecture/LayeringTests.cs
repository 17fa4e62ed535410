using System.Xml.Linq;
using Xunit;

namespace Shimwright.Architecture;

/// <summary>What the project files ask for, before anything is compiled.</summary>
public class LayeringTests
{
    [Fact]
    public void ProjectReferences_OfTheProduct_PointAlongTheArrowsOnly()
    {
        string[] projects = [.. Repository.Files("src", ".csproj")];
        Assert.True(projects.Length >= 5, "There is no product to look at.");
        foreach (string project in projects)
        {
            string name = Path.GetFileNameWithoutExtension(project);
            Assert.True(Product.MaySee.TryGetValue(name, out string[]? below), $"{name} has no place in the house.");
            Assert.All(References(project, "ProjectReference").Select(NameOf), r => Assert.True(below.Contains(r), $"{name} must not see {r}."));
        }
    }

    [Fact]
    public void PackageReferences_OfTheDomain_AreTheNumericalLibraryOnly() =>
        Assert.Equal(
            ["MathNet.Numerics"],
            References(Path.Combine(Repository.Root, "src", "Shimwright.Domain", "Shimwright.Domain.csproj"), "PackageReference"));

    private static IEnumerable<string> References(string project, string kind) =>
        XDocument.Load(project).Descendants(kind).Select(r => r.Attribute("Include")!.Value);

    private static string NameOf(string path) => Path.GetFileNameWithoutExtension(path.Replace('\\', '/'));
}
