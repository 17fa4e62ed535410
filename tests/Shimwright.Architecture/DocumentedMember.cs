using System.Reflection;
using System.Xml.Linq;

namespace Shimwright.Architecture;

/// <summary>What the documentation of an assembly says of its methods and constructors.</summary>
internal sealed class DocumentedMember
{
    private readonly XElement? _member;

    private DocumentedMember(XElement? member) => _member = member;

    /// <summary>Reads the documentation beside an assembly.</summary>
    public static Func<MethodBase, DocumentedMember> In(Assembly assembly)
    {
        Dictionary<string, XElement> members = XDocument.Load(Path.ChangeExtension(assembly.Location, ".xml")).Descendants("member")
            .ToDictionary(m => m.Attribute("name")!.Value, StringComparer.Ordinal);
        return method => new(members.GetValueOrDefault(NameOf(method)));
    }

    /// <summary>Whether it says that an exception is thrown.</summary>
    public bool SaysThrows(Type exception) => Names("exception", "cref").Contains("T:" + exception.FullName);

    /// <summary>Whether it says what a parameter is.</summary>
    public bool Describes(ParameterInfo parameter) => Names("param", "name").Contains(parameter.Name!);

    private IEnumerable<string> Names(string element, string attribute) =>
        _member is null ? [] : _member.Elements(element).Where(e => e.Value.Trim().Length > 0).Select(e => e.Attribute(attribute)!.Value);

    /// <summary>The name by which the compiler documents a method (C# language specification, documentation comments, ID strings).</summary>
    private static string NameOf(MethodBase method)
    {
        string name = method.IsConstructor ? "#ctor" : method.Name;
        string arity = method.IsGenericMethod ? $"``{method.GetGenericArguments().Length}" : "";
        ParameterInfo[] parameters = method.GetParameters();
        string list = parameters.Length == 0 ? "" : $"({string.Join(',', parameters.Select(p => NameOf(p.ParameterType)))})";
        return $"M:{method.DeclaringType!.FullName!.Replace('+', '.')}.{name}{arity}{list}";
    }

    private static string NameOf(Type type)
    {
        if (type.IsGenericParameter)
        {
            return (type.DeclaringMethod is null ? "`" : "``") + type.GenericParameterPosition;
        }

        if (type.HasElementType)
        {
            return NameOf(type.GetElementType()!) + (type.IsArray ? "[]" : type.IsByRef ? "@" : "*");
        }

        string name = (type.IsGenericType ? type.GetGenericTypeDefinition() : type).FullName!.Replace('+', '.');
        return type.IsGenericType
            ? $"{name[..name.IndexOf('`', StringComparison.Ordinal)]}{{{string.Join(',', type.GetGenericArguments().Select(NameOf))}}}"
            : name;
    }
}
