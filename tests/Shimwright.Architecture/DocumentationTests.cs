using System.Reflection;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;
using Xunit;

namespace Shimwright.Architecture;

/// <summary>What is public says what it throws and what its parts are.</summary>
public partial class DocumentationTests
{
    public static TheoryData<string> Projects => ["Shimwright.Domain", "Shimwright.Jobs"];

    [Theory]
    [MemberData(nameof(Projects))]
    public void Exceptions_OfPublicMembers_AreDocumented(string project)
    {
        Assembly assembly = AssemblyOf(project);
        Func<MethodBase, DocumentedMember> documented = DocumentedMember.In(assembly);
        MethodBase[] members = [.. assembly.GetExportedTypes().SelectMany(Members)];
        Assert.True(members.Count(m => ThrownExceptions.Of(m).Count > 0) > 50, $"{project} refuses nothing.");
        string[] missing =
        [
            .. from member in members
               from exception in ThrownExceptions.Of(member)
               where !documented(member).SaysThrows(exception)
               select $"{member.DeclaringType}.{member.Name}({string.Join(", ", member.GetParameters().Select(p => p.Name))}) throws {exception.Name}",
        ];
        Assert.True(missing.Length == 0, $"{missing.Length} are not documented:\n{string.Join('\n', missing)}");
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void Parts_OfPublicRecords_AreDescribed(string project)
    {
        Assembly assembly = AssemblyOf(project);
        Func<MethodBase, DocumentedMember> documented = DocumentedMember.In(assembly);
        ConstructorInfo[] constructors = [.. assembly.GetExportedTypes().SelectMany(t => t.GetConstructors()).Where(c => !IsMade(c))];
        string[] missing =
        [
            .. from constructor in constructors
               from part in constructor.GetParameters()
               where !documented(constructor).Describes(part)
               select $"{constructor.DeclaringType}: {part.Name}",
        ];
        Assert.True(missing.Length == 0, $"{missing.Length} are not described:\n{string.Join('\n', missing)}");
    }

    /// <summary>A page that says by which test something is held must not outlive the test.</summary>
    [Fact]
    public void Tests_ThatThePageOnSecurityNames_AreThere()
    {
        string page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "security.md"));
        string[] named = [.. TestName().Matches(page).Select(m => m.Groups[1].Value).Distinct()];
        string tests = string.Concat(Repository.Files("tests", ".cs").Select(File.ReadAllText));
        Assert.InRange(named.Length, 15, 200);
        Assert.All(named, n => Assert.True(n.Split('.') is [var type, .. var method] && Class(tests, type) && method.All(m => tests.Contains($" {m}(", StringComparison.Ordinal)), $"There is no test {n}."));

        static bool Class(string tests, string name) => Regex.IsMatch(tests, $@"\bclass {name}\b");
    }

    [GeneratedRegex(@"`(\w+Tests(?:\.\w+)?)`")]
    private static partial Regex TestName();

    private static Assembly AssemblyOf(string project) =>
        Assert.Single(Product.Assemblies, a => Product.ProjectOf(a.GetName()) == project);

    private static IEnumerable<MethodBase> Members(Type type) => type
        .GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly).Where(m => !m.IsSpecialName)
        .Concat<MethodBase>(type.GetConstructors()).Where(m => !IsMade(m) && type.BaseType != typeof(MulticastDelegate));

    private static bool IsMade(MethodBase member) => member.IsDefined(typeof(CompilerGeneratedAttribute));
}
