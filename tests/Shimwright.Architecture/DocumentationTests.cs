using System.Reflection;
using System.Runtime.CompilerServices;
using Xunit;

namespace Shimwright.Architecture;

/// <summary>What is public says what it throws and what its parts are.</summary>
public class DocumentationTests
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

    private static Assembly AssemblyOf(string project) =>
        Assert.Single(Product.Assemblies, a => Product.ProjectOf(a.GetName()) == project);

    private static IEnumerable<MethodBase> Members(Type type) => type
        .GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly).Where(m => !m.IsSpecialName)
        .Concat<MethodBase>(type.GetConstructors()).Where(m => !IsMade(m) && type.BaseType != typeof(MulticastDelegate));

    private static bool IsMade(MethodBase member) => member.IsDefined(typeof(CompilerGeneratedAttribute));
}
