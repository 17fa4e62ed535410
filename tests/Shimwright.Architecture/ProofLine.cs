using System.Reflection;
using Shimwright.Testing.Proof;

namespace Shimwright.Architecture;

/// <summary>What a class of tests says of a formula.</summary>
/// <param name="Formula">The formula.</param>
/// <param name="Evidence">What kind of thing it is held against.</param>
/// <param name="Against">What it is held against.</param>
/// <param name="Class">The class, with its project.</param>
/// <param name="Tests">How many test methods it has.</param>
internal sealed record ProofLine(string Formula, Evidence Evidence, string Against, string Class, int Tests)
{
    /// <summary>Whether a published figure stands behind a formula.</summary>
    public static bool HasPublished(IEnumerable<ProofLine> lines, string formula) => lines.Any(l => l.Formula == formula && l.Evidence == Evidence.Published);

    private static readonly string[] Projects = ["Shimwright.Reference", "Shimwright.Domain.Tests"];

    /// <summary>The lines of all test programs, as they were built beside this one.</summary>
    public static IReadOnlyList<ProofLine> All() => [.. Projects.SelectMany(p => Of(Load(p))).OrderBy(l => l.Evidence).ThenBy(l => l.Class, StringComparer.Ordinal)];

    /// <summary>Built beside this one, in a folder that may name the kind of machine too.</summary>
    private static Assembly Load(string project)
    {
        string configuration = Path.GetFileName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory)).Split('_')[0];
        string[] built = Directory.GetFiles(Path.Combine(Repository.Root, "artifacts", "bin", project), project + ".dll", SearchOption.AllDirectories);
        return Assembly.LoadFrom(built.Single(f => Path.GetFileName(Path.GetDirectoryName(f))!.StartsWith(configuration, StringComparison.Ordinal)));
    }

    /// <summary>The attribute is compiled into each test program, so it is known by its name.</summary>
    private static IEnumerable<ProofLine> Of(Assembly tests) =>
        from type in tests.GetTypes()
        from said in type.GetCustomAttributesData()
        where said.AttributeType.FullName == typeof(ProofAttribute).FullName
        select new ProofLine(
            (string)said.ConstructorArguments[0].Value!, (Evidence)(int)said.ConstructorArguments[1].Value!, (string)said.ConstructorArguments[2].Value!,
            type.FullName!, type.GetMethods().Count(m => m.GetCustomAttributesData().Any(a => a.AttributeType.Name.EndsWith("FactAttribute", StringComparison.Ordinal)
                || a.AttributeType.Name.EndsWith("TheoryAttribute", StringComparison.Ordinal) || a.AttributeType.Name.EndsWith("PropertyAttribute", StringComparison.Ordinal))));
}
