using System.Reflection;
using System.Runtime.CompilerServices;
using Shimwright.Domain.Engines;
using Xunit;

namespace Shimwright.Domain.Tests.Architecture;

/// <summary>What the domain hands out cannot be changed behind its back.</summary>
public class PublicTypesTests
{
    private static readonly Type[] Public = [.. typeof(Engine).Assembly.GetExportedTypes()];

    private const BindingFlags Everything =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    [Fact]
    public void Types_AllPublicOnes_AreClosed()
    {
        Assert.True(Public.Length > 30, "There is no domain to look at.");
        Assert.All(Public, t => Assert.True(
            t.IsInterface || t.IsEnum || t.IsSealed && !t.IsValueType || IsReadOnlyStruct(t) || IsOneOfSeveral(t), $"{t} is open."));
    }

    [Fact]
    public void Fields_AllOfThem_AreReadOnlyOrConstant() =>
        Assert.All(Public.Where(t => !t.IsEnum).SelectMany(t => t.GetFields(Everything)), f => Assert.True(
            f.IsInitOnly || f.IsLiteral, $"{f.DeclaringType}.{f.Name} can be assigned."));

    [Fact]
    public void Setters_AllPublicOnes_BelongToRecordsThatCheckNothing()
    {
        foreach (PropertyInfo property in Public.SelectMany(t => t.GetProperties(Everything)).Where(p => p.SetMethod?.IsPublic == true))
        {
            string name = $"{property.DeclaringType}.{property.Name}";
            Assert.True(IsInit(property), $"{name} can be set.");

            // Such a setter runs past the constructor; that is safe only where the constructor has no rule.
            Assert.True(TakesOverOnly(property.DeclaringType!), $"{name} can be set past the check of its constructor.");
        }
    }

    [Fact]
    public void Collections_AllPublicOnes_AreReadOnly() =>
        Assert.All(Public.SelectMany(t => t.GetProperties(Everything)).Where(p => p.GetMethod?.IsPublic == true), p => Assert.False(
            p.PropertyType.IsArray || (p.PropertyType.IsGenericType && p.PropertyType.GetGenericTypeDefinition() is var open
                && (open == typeof(List<>) || open == typeof(Dictionary<,>) || open == typeof(IList<>) || open == typeof(IDictionary<,>))),
            $"{p.DeclaringType}.{p.Name} hands out a collection that can be changed."));

    private static bool IsReadOnlyStruct(Type type) => type.IsValueType && type.IsDefined(typeof(IsReadOnlyAttribute), false);

    /// <summary>An abstract record whose kinds are the domain's: beside the copying constructor, which records have to show, none can be called from outside.</summary>
    private static bool IsOneOfSeveral(Type type) => type.IsAbstract && type.GetConstructors(Everything)
        .All(c => c.IsFamilyAndAssembly || c.GetParameters() is [{ } copied] && copied.ParameterType == type);

    private static bool IsInit(PropertyInfo property) =>
        property.SetMethod!.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit));

    /// <summary>Whether a record's constructor does no more than store its parameters: a load and a store for each, and the base call.</summary>
    private static bool TakesOverOnly(Type record) => record.GetConstructors().All(c =>
        c.GetMethodBody()!.GetILAsByteArray()!.Length <= (8 * c.GetParameters().Length) + 8);
}
