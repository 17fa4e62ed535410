using System.Text.Json.Nodes;
using System.Xml.Linq;
using Xunit;

namespace Shimwright.Architecture;

/// <summary>What packages are used is written down: by version and checksum, and with its notice.</summary>
public class PackagesTests
{
    [Fact]
    public void LockFiles_OfEveryProject_HoldTheVersionsThatAreAskedFor()
    {
        Dictionary<string, string> asked = XDocument.Load(Path.Combine(Repository.Root, "Directory.Packages.props")).Descendants("PackageVersion")
            .ToDictionary(p => p.Attribute("Include")!.Value, p => p.Attribute("Version")!.Value, StringComparer.OrdinalIgnoreCase);
        string[] projects = [.. new[] { "src", "tests", "bench", "eng" }.SelectMany(f => Directory.GetFiles(Path.Combine(Repository.Root, f), "*.csproj", SearchOption.AllDirectories))];
        Assert.NotEmpty(projects);
        Assert.All(projects, project =>
        {
            foreach ((string name, JsonNode package) in Packages(Path.Combine(Path.GetDirectoryName(project)!, "packages.lock.json")))
            {
                Assert.True(package["contentHash"] is not null, $"{name} of {project} has no checksum.");
                if (package["type"]!.GetValue<string>() == "Direct" && asked.TryGetValue(name, out string? version))
                {
                    Assert.Equal(version, package["resolved"]!.GetValue<string>());
                }
            }
        });
    }

    [Fact]
    public void Notices_OfThePublishedProgram_NameEveryLibrary()
    {
        string notices = File.ReadAllText(Path.Combine(Repository.Root, "NOTICES.md"));
        string[] built = ["Microsoft.CodeAnalysis.BannedApiAnalyzers", "Microsoft.AspNetCore.App.Internal.Assets", "Microsoft.EntityFrameworkCore.Analyzers"];
        Assert.All(Packages(Path.Combine(Repository.Root, "src", "Shimwright.Cli", "packages.lock.json")).Select(p => p.Name).Except(built), name =>
            Assert.True(Names(name).Any(n => notices.Contains(n, StringComparison.Ordinal)), $"{name} stands in no notice."));
    }

    /// <summary>A library stands under its own name or that of the family that it belongs to.</summary>
    private static IEnumerable<string> Names(string package)
    {
        string[] parts = package.Split('.');
        return Enumerable.Range(1, parts.Length).Select(n => string.Join('.', parts[..n])).Where(n => n is not ("Microsoft" or "System"));
    }

    private static IEnumerable<(string Name, JsonNode Package)> Packages(string file) =>
        JsonNode.Parse(File.ReadAllText(file))!["dependencies"]!.AsObject().SelectMany(f => f.Value!.AsObject())
            .Where(p => p.Value!["type"]!.GetValue<string>() != "Project").Select(p => (p.Key, p.Value!));
}
