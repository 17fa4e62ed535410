using System.Xml.Linq;
using Xunit;

namespace Shimwright.Domain.Tests.Architecture;

public class LayeringTests
{
    /// <summary>From the bottom up; a project may see what stands below it.</summary>
    private static readonly string[] Layers =
        ["Shimwright.Domain", "Shimwright.Jobs", "Shimwright.Storage", "Shimwright.Web", "Shimwright.Cli"];

    [Fact]
    public void ProjectReferences_OfTheProduct_PointDownOnly()
    {
        string[] projects = [.. Repository.Files("src", ".csproj")];
        Assert.True(projects.Length >= 3, "There is no product to look at.");
        foreach (string project in projects)
        {
            string name = Path.GetFileNameWithoutExtension(project);
            int layer = Array.IndexOf(Layers, name);
            Assert.True(layer >= 0, $"{name} has no place in the layers.");
            Assert.All(References(project, "ProjectReference").Select(NameOf), reference =>
                Assert.True(
                    Array.IndexOf(Layers, reference) is var below && below >= 0 && below < layer, $"{name} must not see {reference}."));
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
