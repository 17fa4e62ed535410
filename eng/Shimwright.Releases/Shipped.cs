using System.Security.Cryptography;
using System.Text.Json.Nodes;

namespace Shimwright.Releases;

/// <summary>A package that is in what is handed out.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Version">Its version.</param>
/// <param name="Folder">Where it lies unpacked.</param>
/// <param name="Needs">Names of the packages that it names itself.</param>
/// <param name="Parts">The parts of the release that it is in.</param>
internal sealed record Shipped(string Name, string Version, string Folder, IReadOnlyList<string> Needs, SortedSet<string> Parts)
{
    /// <summary>The part whose runtime is that of its base image, whatever was fetched to compile it ahead.</summary>
    public const string Image = "container";

    private static readonly string[] Run = ["runtime", "native", "runtimeTargets"];

    /// <summary>Its address as a package URL.</summary>
    public string Address => $"pkg:nuget/{Name}@{Version}";

    /// <summary>The packages in the parts of a release, by name.</summary>
    /// <param name="parts">For each part its name, an equals sign and the project.assets.json that its restore wrote.</param>
    public static IReadOnlyList<Shipped> Of(IEnumerable<string> parts)
    {
        var found = new Dictionary<string, Shipped>(StringComparer.OrdinalIgnoreCase);
        foreach (string part in parts)
        {
            if (part.Split('=', 2) is not [var name, var file])
            {
                throw new FormatException($"{part}: write PART=ASSETS.");
            }

            foreach (Shipped package in OfPart(name, JsonNode.Parse(File.ReadAllText(file))!))
            {
                if (!found.TryAdd(package.Address, package))
                {
                    found[package.Address].Parts.UnionWith(package.Parts);
                }
            }
        }

        return [.. found.Values.OrderBy(p => p.Name, StringComparer.OrdinalIgnoreCase).ThenBy(p => p.Version, StringComparer.Ordinal)];
    }

    /// <summary>The SHA-512 of the package as it was fetched, as hexadecimal digits.</summary>
    public string Sum()
    {
        using FileStream package = File.OpenRead(Path.Combine(Folder, $"{Name}.{Version}.nupkg".ToLowerInvariant()));
        return Convert.ToHexStringLower(SHA512.HashData(package));
    }

    private static IEnumerable<Shipped> OfPart(string part, JsonNode assets)
    {
        string[] roots = [.. assets["packageFolders"]!.AsObject().Select(f => f.Key)];
        // The target for one kind of machine, where there is one, has what is really taken along; it is named FRAMEWORK/MACHINE.
        JsonObject target = assets["targets"]!.AsObject().OrderByDescending(t => t.Key.Length).First().Value!.AsObject();
        foreach ((string key, JsonNode? library) in target)
        {
            if (library!["type"]!.GetValue<string>() == "package" && Carries(library) && key.Split('/') is [var name, var version])
            {
                string[] needs = [.. library["dependencies"]?.AsObject().Select(d => d.Key) ?? []];
                yield return new(name, version, FolderOf(roots, name, version), needs, [part]);
            }
        }

        if (part == Image)
        {
            yield break;
        }

        // The runtime itself, where it is taken along: a package of its own that no project names.
        foreach (JsonNode? pack in assets["project"]!["frameworks"]!.AsObject().SelectMany(f => f.Value!["downloadDependencies"]?.AsArray() ?? []))
        {
            string name = pack!["name"]!.GetValue<string>();
            string version = pack["version"]!.GetValue<string>().Trim('[', ']').Split(',')[0];
            if (name.Contains(".App.Runtime.", StringComparison.Ordinal) || name.Contains(".App.Host.", StringComparison.Ordinal))
            {
                yield return new(name, version, FolderOf(roots, name, version), [], [part]);
            }
        }
    }

    /// <summary>Whether files of it run: an analyzer or a build step has none.</summary>
    private static bool Carries(JsonNode library) => Run
        .Any(kind => library[kind]?.AsObject().Any(f => !f.Key.EndsWith("/_._", StringComparison.Ordinal)) ?? false);

    private static string FolderOf(string[] roots, string name, string version) =>
        roots.Select(r => Path.Combine(r, name.ToLowerInvariant(), version)).FirstOrDefault(Directory.Exists)
        ?? throw new InvalidDataException($"{name} {version} is in none of {string.Join(", ", roots)}: restore the packages first.");
}
