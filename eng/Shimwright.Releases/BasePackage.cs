namespace Shimwright.Releases;

/// <summary>A package in the base of the container image, as eng/base-image lists it.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Version">Its version.</param>
/// <param name="Machine">The kind of machine that it is for, in Debian's words; "-" for the runtime of .NET, which is no package.</param>
/// <param name="Sum">The SHA-256 of the package as it was fetched.</param>
internal sealed record BasePackage(string Name, string Version, string Machine, string Sum)
{
    /// <summary>Whether it came as a package, and not from beside the SDK.</summary>
    public bool IsPackage => Machine != "-";

    /// <summary>Its address as a package URL.</summary>
    public string Address => IsPackage ? $"pkg:deb/debian/{Escaped(Name)}@{Escaped(Version)}?arch={Machine}" : $"pkg:generic/{Name}@{Version}";

    /// <summary>Reads a list.</summary>
    /// <param name="file">A package a line: name, version, machine and SHA-256.</param>
    public static IEnumerable<BasePackage> Read(string file) => File.ReadLines(file).Select(line => line.Split(' ') is [var name, var version, var machine, var sum]
        ? new BasePackage(name, version, machine, sum)
        : throw new FormatException($"{file}: \"{line}\" is not NAME VERSION MACHINE SHA256."));

    /// <summary>An address keeps its colons (the epoch of a version), and nothing else that has to be escaped.</summary>
    private static string Escaped(string part) => Uri.EscapeDataString(part).Replace("%3A", ":", StringComparison.Ordinal);
}
