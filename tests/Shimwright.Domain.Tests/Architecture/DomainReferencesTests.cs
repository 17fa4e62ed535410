using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Architecture;

/// <summary>The domain computes; it reads no file, no clock, no network and no chance.</summary>
public class DomainReferencesTests
{
    private static readonly Assembly Domain = typeof(Engine).Assembly;

    private static readonly string[] OutsideWorld =
        ["System.IO", "System.Net", "System.Diagnostics.Process", "System.Data", "Microsoft"];

    private static readonly string[] OutsideTypes =
    [
        "System.Console", "System.Random", "System.TimeProvider", "System.AppContext",
        "System.Threading.Thread", "System.Diagnostics.Stopwatch", "System.Security.Cryptography.RandomNumberGenerator",
    ];

    [Fact]
    public void Assemblies_OfTheDomain_AreThePlatformAndTheNumericalLibrary()
    {
        string[] names = [.. Domain.GetReferencedAssemblies().Select(a => a.Name!)];
        Assert.Contains("MathNet.Numerics", names);
        Assert.All(names, n => Assert.True(n == "MathNet.Numerics" || n.StartsWith("System.", StringComparison.Ordinal), n));
        Assert.All(names, n => Assert.DoesNotContain(n, (string[])["System.Console", "System.Net.Http", "System.IO.FileSystem"]));
    }

    [Fact]
    public void Types_ThatTheDomainUses_HaveNothingToDoWithTheOutsideWorld()
    {
        string[] types = [.. Metadata(reader => reader.TypeReferences.Select(h => reader.GetTypeReference(h))
            .Select(t => $"{reader.GetString(t.Namespace)}.{reader.GetString(t.Name)}"))];
        Assert.Contains("System.Math", types);
        Assert.All(types, t => Assert.DoesNotContain(OutsideWorld, n => t.StartsWith($"{n}.", StringComparison.Ordinal)));
        Assert.All(types, t => Assert.DoesNotContain(t, OutsideTypes));
    }

    [Fact]
    public void Members_ThatTheDomainUses_NeitherTellTheTimeNorGuessTheCulture()
    {
        string[] members = [.. Metadata(reader => reader.MemberReferences.Select(h => reader.GetMemberReference(h))
            .Select(m => $"{Owner(reader, m)}.{reader.GetString(m.Name)}"))];
        Assert.Contains("Math.Exp", members);
        Assert.All(members, m => Assert.DoesNotContain(
            m.Split('.')[^1], (string[])["get_Now", "get_UtcNow", "get_Today", "get_CurrentCulture", "get_CurrentUICulture", "NewGuid"]));

        // The compiler's iterators ask for their thread; nothing else of the environment is anybody's business here.
        Assert.All(
            members.Where(m => m.StartsWith("Environment.", StringComparison.Ordinal)),
            m => Assert.Equal("Environment.get_CurrentManagedThreadId", m));
    }

    private static string Owner(MetadataReader reader, MemberReference member) => member.Parent.Kind == HandleKind.TypeReference
        ? reader.GetString(reader.GetTypeReference((TypeReferenceHandle)member.Parent).Name)
        : "";

    private static List<string> Metadata(Func<MetadataReader, IEnumerable<string>> names)
    {
        using var file = new PEReader(File.OpenRead(Domain.Location));
        return [.. names(file.GetMetadataReader())];
    }
}
