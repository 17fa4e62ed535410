namespace Shimwright.Pages.Visits;

/// <summary>A form as it was sent: its name, and what stood in its fields, in their order.</summary>
public sealed class SentForm
{
    /// <summary>The hidden field by which every form of a page carries its name.</summary>
    public const string NameField = "_handler";

    private readonly ILookup<string, string> _values;
    private readonly Dictionary<string, VisitFile> _files;

    /// <summary>Takes what was sent.</summary>
    /// <param name="fields">The fields; a name may come several times.</param>
    /// <param name="files">The files, each under the name of its field.</param>
    public SentForm(IEnumerable<KeyValuePair<string, string>> fields, IReadOnlyDictionary<string, VisitFile>? files = null)
    {
        _values = fields.ToLookup(f => f.Key, f => f.Value, StringComparer.OrdinalIgnoreCase);
        _files = new(files ?? new Dictionary<string, VisitFile>(), StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>The form's name; null where it brought none.</summary>
    public string? Name => Value(NameField);

    /// <summary>The value of a field, the first where it came several times; null where it did not come.</summary>
    public string? Value(string field) => _values[field].FirstOrDefault();

    /// <summary>All values of a field.</summary>
    public IReadOnlyList<string> Values(string field) => [.. _values[field]];

    /// <summary>The file of a field, or null.</summary>
    public VisitFile? File(string field) => _files.GetValueOrDefault(field);

    /// <summary>Whether any field or file came for a part of what a name stands for.</summary>
    public bool HasBelow(string field) =>
        _values.Select(v => v.Key).Concat(_files.Keys).Any(k => k.Length > field.Length && k[field.Length] is '.' && k.StartsWith(field, StringComparison.OrdinalIgnoreCase));
}
