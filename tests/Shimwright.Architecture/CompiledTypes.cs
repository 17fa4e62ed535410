using System.Reflection;
using System.Reflection.Emit;

namespace Shimwright.Architecture;

/// <summary>Reads out of compiled types which other types each of them uses: in its shape and in the bodies of its methods.</summary>
internal static class CompiledTypes
{
    private const BindingFlags Declared =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private static readonly OpCode[] OneByte = new OpCode[256], TwoBytes = new OpCode[256];

    static CompiledTypes()
    {
        foreach (OpCode code in typeof(OpCodes).GetFields().Select(f => f.GetValue(null)).OfType<OpCode>())
        {
            (code.Size == 1 ? OneByte : TwoBytes)[code.Value & 0xFF] = code;
        }
    }

    /// <summary>Every type that a type uses, itself and what is nested in it left in.</summary>
    public static HashSet<Type> UsedBy(Type type)
    {
        HashSet<Type> used = [];
        Add(used, type.BaseType);
        AddAll(used, type.GetInterfaces());
        AddAll(used, type.GetGenericArguments().SelectMany(a => a.IsGenericParameter ? a.GetGenericParameterConstraints() : [a]));
        AddAll(used, type.CustomAttributes.SelectMany(TypesOf));
        AddAll(used, type.GetFields(Declared).Select(f => f.FieldType));
        AddAll(used, type.GetMembers(Declared).SelectMany(m => m.CustomAttributes).SelectMany(TypesOf));
        foreach (MethodBase method in type.GetMethods(Declared).Concat<MethodBase>(type.GetConstructors(Declared)))
        {
            Add(used, (method as MethodInfo)?.ReturnType);
            AddAll(used, method.GetParameters().Select(p => p.ParameterType));
            AddBody(used, method);
        }

        return used;
    }

    private static IEnumerable<Type> TypesOf(CustomAttributeData attribute) =>
        attribute.ConstructorArguments.Select(a => a.Value).OfType<Type>().Append(attribute.AttributeType);

    private static void AddBody(HashSet<Type> used, MethodBase method)
    {
        if (method.GetMethodBody() is not { } body || body.GetILAsByteArray() is not { } il)
        {
            return;
        }

        AddAll(used, body.LocalVariables.Select(l => l.LocalType));
        AddAll(used, body.ExceptionHandlingClauses.Where(c => c.Flags == ExceptionHandlingClauseOptions.Clause).Select(c => c.CatchType!));
        foreach (MemberInfo member in NamedIn(method, il))
        {
            AddMember(used, member);
        }
    }

    /// <summary>Every type, field and method that the body of a method names.</summary>
    public static IEnumerable<MemberInfo> NamedIn(MethodBase method) =>
        method.GetMethodBody()?.GetILAsByteArray() is { } il ? NamedIn(method, il) : [];

    private static IEnumerable<MemberInfo> NamedIn(MethodBase method, byte[] il)
    {
        Type[] ofType = method.DeclaringType!.GetGenericArguments();
        Type[] ofMethod = method is MethodInfo { IsGenericMethod: true } ? method.GetGenericArguments() : [];
        for (int at = 0; at < il.Length;)
        {
            OpCode code = il[at] == 0xFE ? TwoBytes[il[at + 1]] : OneByte[il[at]];
            at += code.Size;
            if (code.OperandType is OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineType or OperandType.InlineTok)
            {
                if (method.Module.ResolveMember(BitConverter.ToInt32(il, at), ofType, ofMethod) is { } member)
                {
                    yield return member;
                }
            }

            at += SizeOf(code, il, at);
        }
    }

    private static int SizeOf(OpCode code, byte[] il, int at) => code.OperandType switch
    {
        OperandType.InlineNone => 0,
        OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
        OperandType.InlineVar => 2,
        OperandType.InlineI8 or OperandType.InlineR => 8,
        OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(il, at)),
        _ => 4,
    };

    private static void AddMember(HashSet<Type> used, MemberInfo member)
    {
        Add(used, member as Type ?? member.DeclaringType);
        switch (member)
        {
            case FieldInfo field:
                Add(used, field.FieldType);
                break;
            case MethodBase method:
                Add(used, (method as MethodInfo)?.ReturnType);
                AddAll(used, method.GetParameters().Select(p => p.ParameterType));
                AddAll(used, method.IsGenericMethod ? method.GetGenericArguments() : []);
                break;
        }
    }

    private static void AddAll(HashSet<Type> used, IEnumerable<Type> types)
    {
        foreach (Type type in types)
        {
            Add(used, type);
        }
    }

    private static void Add(HashSet<Type> used, Type? type)
    {
        if (type is null || type.IsGenericParameter)
        {
            return;
        }

        if (type.HasElementType)
        {
            Add(used, type.GetElementType());
            return;
        }

        if (used.Add(type.IsGenericType ? type.GetGenericTypeDefinition() : type))
        {
            AddAll(used, type.IsGenericType ? type.GetGenericArguments() : []);
        }
    }
}
