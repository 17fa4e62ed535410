using System.Reflection;

namespace Shimwright.Architecture;

/// <summary>
/// What a public method or constructor throws itself: in its own body, or in what its type keeps to itself (private methods
/// and constructors, lambdas, iterators) and it calls.
/// </summary>
internal static class ThrownExceptions
{
    private const BindingFlags Declared =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    /// <summary>The kinds of exception, each once.</summary>
    public static IReadOnlySet<Type> Of(MethodBase method)
    {
        HashSet<Type> thrown = [];
        HashSet<MethodBase> seen = [];
        Look(method, method.DeclaringType!, thrown, seen);
        return thrown;
    }

    private static void Look(MethodBase method, Type own, HashSet<Type> thrown, HashSet<MethodBase> seen)
    {
        if (!seen.Add(method))
        {
            return;
        }

        foreach (MemberInfo named in CompiledTypes.NamedIn(method))
        {
            if (named is not MethodBase called)
            {
                continue;
            }

            if (Thrown(called) is { } kind)
            {
                thrown.Add(kind);
            }
            else if (called.DeclaringType == own && !called.IsPublic)
            {
                Look(called, own, thrown, seen);
            }
            else if (called.DeclaringType is { } inner && IsMadeFor(inner, own))
            {
                // A lambda's or an iterator's class: what the compiler has put into it belongs to the method.
                foreach (MethodInfo part in called.IsConstructor ? inner.GetMethods(Declared).Where(m => m.Name == "MoveNext") : called is MethodInfo m ? [m] : [])
                {
                    Look(part, own, thrown, seen);
                }
            }
        }
    }

    private static bool IsMadeFor(Type inner, Type own) => inner.DeclaringType == own && inner.Name.StartsWith('<');

    private static Type? Thrown(MethodBase called) => called switch
    {
        { IsConstructor: true } when called.DeclaringType!.IsAssignableTo(typeof(Exception)) => called.DeclaringType,
        { DeclaringType: { } helper } when helper.IsAssignableTo(typeof(Exception)) && called.Name.StartsWith("ThrowIf", StringComparison.Ordinal) => helper,
        { DeclaringType.Name: "Guard" } => typeof(ArgumentOutOfRangeException),
        _ => null,
    };
}
