namespace Shimwright.Pages.Visits;

/// <summary>What stands behind the question mark of an address, for pages that ask for it by names that they compute.</summary>
internal sealed class AddressQuery
{
    private readonly ILookup<string, string> _values;

    public AddressQuery(string address)
    {
        ArgumentNullException.ThrowIfNull(address);
        string behind = address.Split('#')[0].Split('?', 2) is [_, var query] ? query : "";
        _values = behind.Split('&', StringSplitOptions.RemoveEmptyEntries)
            .Select(p => p.Split('=', 2))
            .ToLookup(p => Plain(p[0]), p => p is [_, var value] ? Plain(value) : "", StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>The value of a name; several stand behind each other, between commas; null where there is none.</summary>
    public string? this[string name] => _values.Contains(name) ? string.Join(',', _values[name]) : null;

    private static string Plain(string escaped) => Uri.UnescapeDataString(escaped.Replace('+', ' '));
}
