using System.Reflection;
using Xunit;
using Xunit.Sdk;
using Xunit.v3;

namespace Shimwright.Reference.Published;

/// <summary>
/// Hands a test one published file. The attributes are the registry: a file that no test asks for fails
/// <see cref="PublishedFilesTests"/>, and so does a file that is asked for and missing.
/// </summary>
[AttributeUsage(AttributeTargets.Method, AllowMultiple = true)]
public sealed class PublishedFileAttribute(string name) : DataAttribute
{
    /// <summary>The file's path below data/published, with forward slashes.</summary>
    public string Name { get; } = name;

    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(
        MethodInfo testMethod, DisposalTracker disposalTracker) =>
        new([new TheoryDataRow<PublishedFile>(new PublishedFile(Name))]);

    public override bool SupportsDiscoveryEnumeration() => false;
}
