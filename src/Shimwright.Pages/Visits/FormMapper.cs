using System.Collections;
using System.Globalization;
using System.Reflection;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.AspNetCore.Components.Forms.Mapping;

namespace Shimwright.Pages.Visits;

/// <summary>
/// Lays what a form brought into the class that a page asks for, as the server does it: a field's name is the way to it, such as
/// <c>Bench.Kits[1].From</c>, whatever the case of its letters; an object none of whose fields came is null, and so is a list;
/// in one of which any came, what did not come is the default, whatever its class begins with; a list ends at the first number that
/// is not there; what cannot be read is the default.
/// </summary>
internal sealed class FormMapper(VisitRequest request) : IFormValueMapper
{
    public bool CanMap(Type valueType, string scopeName, string? formName) =>
        request.Form is { Name: { } sent } && scopeName.Length == 0 && (formName is null || formName == sent);

    public void Map(FormValueMappingContext context) =>
        context.SetResult(Read(context.ValueType, context.ParameterName, request.Form!).Value);

    private static Found Read(Type type, string field, SentForm form)
    {
        if (type == typeof(IBrowserFile))
        {
            return form.File(field) is { } file ? new(true, file) : Found.Nothing;
        }

        if (Parser(type) is { } parse)
        {
            return form.Value(field) is { } text ? new(true, parse(text)) : Found.Nothing;
        }

        return type.IsGenericType && type.GetGenericTypeDefinition() == typeof(List<>)
            ? ReadList(type, type.GetGenericArguments()[0], field, form)
            : ReadObject(type, field, form);
    }

    private static Found ReadList(Type type, Type item, string field, SentForm form)
    {
        var list = (IList)Activator.CreateInstance(type)!;
        if (item == typeof(string) && form.Value($"{field}[0]") is null && form.Values(field) is { Count: > 0 } values)
        {
            return new(true, values.ToList());
        }

        while (Read(item, string.Create(CultureInfo.InvariantCulture, $"{field}[{list.Count}]"), form) is { IsThere: true } found)
        {
            list.Add(found.Value);
        }

        return list.Count > 0 ? new(true, list) : Found.Nothing;
    }

    private static Found ReadObject(Type type, string field, SentForm form)
    {
        if (!form.HasBelow(field))
        {
            return Found.Nothing;
        }

        object value = Activator.CreateInstance(type)!;
        bool isThere = false;
        foreach (PropertyInfo property in type.GetProperties().Where(p => p.SetMethod is { IsPublic: true }))
        {
            Found found = Read(property.PropertyType, $"{field}.{property.Name}", form);
            isThere |= found.IsThere;
            property.SetValue(value, found.Value);
        }

        return isThere ? new(true, value) : Found.Nothing;
    }

    private static Func<string, object?>? Parser(Type type) =>
        type == typeof(string) ? text => text
        : type == typeof(int) ? text => Whole(text) ?? 0
        : type == typeof(int?) ? text => Whole(text)
        : type == typeof(double) ? text => Real(text) ?? 0
        : type == typeof(double?) ? text => Real(text)
        : type == typeof(bool) ? text => Flag(text) ?? false
        : type == typeof(bool?) ? text => Flag(text)
        : type == typeof(Guid) ? text => Id(text) ?? Guid.Empty
        : type == typeof(Guid?) ? text => Id(text)
        : null;

    private static int? Whole(string text) => int.TryParse(text, CultureInfo.InvariantCulture, out int value) ? value : null;

    private static double? Real(string text) => double.TryParse(text, CultureInfo.InvariantCulture, out double value) ? value : null;

    private static bool? Flag(string text) => bool.TryParse(text, out bool value) ? value : null;

    private static Guid? Id(string text) => Guid.TryParse(text, CultureInfo.InvariantCulture, out Guid value) ? value : null;

    /// <summary>What was found of a field.</summary>
    private readonly record struct Found(bool IsThere, object? Value)
    {
        public static Found Nothing => default;
    }
}
